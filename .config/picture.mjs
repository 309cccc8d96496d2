// SPDX-License-Identifier: AGPL-3.0-or-later
// Takes the pictures of the README: the report of a melody of the collection, from the built program, by day.
import { spawnSync } from "node:child_process";
import { existsSync, mkdirSync, mkdtempSync, rmSync, statSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { fileURLToPath, pathToFileURL } from "node:url";
import { chromium } from "playwright-core";

const CHROMIUM = process.env.CHROMIUM ?? "/usr/bin/chromium";
const MELODY = "willow-bend";
/** Width of the page in CSS pixels; what is taken is half as wide again, for screens that show finer dots. */
const WIDTH = 800;
const SCALE = 1.5;
/** Margin round what is taken, in CSS pixels */
const MARGIN = 24;
/** So many lines of music */
const SYSTEMS = 2;
const LARGEST_BYTES = 400_000;
/** What a reader of the page uses, and a picture of it cannot; and blanks that would only make it tall */
const STYLE = `
  nav, .display, .listen, .behind, #ways-hint, .note-cells, .ways-panel, .facts, .figures, .tuning, .legend, .system:nth-child(n + ${SYSTEMS + 1}) { display: none !important }
  main > section { margin-top: 1.5rem; padding-top: 1.25rem }
  #answer { margin-top: 1rem }
`;

const at = (path) => fileURLToPath(new URL(`../${path}`, import.meta.url));

/** Where something begins and ends on the page, in CSS pixels from its top, since the page is not scrolled. */
async function extent(page, selector) {
  const box = await page.locator(selector).first().boundingBox();
  if (box === null) throw new Error(`the page shows no ${selector}`);
  return { top: box.y, bottom: box.y + box.height };
}

/** Writes one picture of the page from one height to another. */
async function take(page, from, to, name) {
  const path = at(`.readme/${name}.png`);
  await page.screenshot({ path, fullPage: true, clip: { x: 0, y: from, width: WIDTH, height: to - from } });
  const { size } = statSync(path);
  if (size > LARGEST_BYTES) throw new Error(`${path} has ${size} bytes, and ${LARGEST_BYTES} are the most`);
  console.log(`${path}: ${Math.round(size / 1000)} KB`);
}

async function takeAll(report) {
  const browser = await chromium.launch({ executablePath: CHROMIUM, args: ["--no-sandbox"] });
  try {
    const page = await browser.newPage({
      viewport: { width: WIDTH, height: 900 },
      deviceScaleFactor: SCALE,
      colorScheme: "light",
      reducedMotion: "reduce",
      bypassCSP: true,
    });
    await page.goto(pathToFileURL(report).href);
    await page.addStyleTag({ content: STYLE });
    await take(page, 0, (await extent(page, ".systems")).bottom + MARGIN, "report");
    const { top } = await extent(page, "#pictures h3");
    await take(page, top - MARGIN, (await extent(page, "#pictures .picture-key")).bottom + MARGIN, "pictures");
  } finally {
    await browser.close();
  }
}

if (!existsSync(CHROMIUM)) {
  console.error(
    `npm run picture needs Chromium, and there is no ${CHROMIUM}: apt-get install chromium, or name another with CHROMIUM=PATH`,
  );
  process.exitCode = 2;
} else {
  const folder = mkdtempSync(join(tmpdir(), "huipath-picture-"));
  try {
    mkdirSync(at(".readme"), { recursive: true });
    const report = join(folder, "page.html");
    const score = at(`fixtures/melodies/${MELODY}.musicxml`);
    const told = ["check", score, "--transpose", "best", "--report", report, "--quiet"];
    const { status } = spawnSync(process.execPath, [at("dist/src/cli.js"), ...told], { stdio: "inherit" });
    if (status !== 0) throw new Error(`huipath check left with ${status}`);
    await takeAll(report);
  } finally {
    rmSync(folder, { recursive: true });
  }
}
