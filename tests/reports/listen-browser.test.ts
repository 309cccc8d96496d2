// SPDX-License-Identifier: AGPL-3.0-or-later
// The listen bar in a real Chromium: what it sends to the loudspeaker, when, and what it marks meanwhile.
import { AxeBuilder } from "@axe-core/playwright";
import type { Page } from "playwright-core";
import { expect, it } from "vitest";
import { renderCheckPage } from "../../reports/check-page.js";
import { engraveReport } from "../../src/engrave/music.js";
import { SAMPLE_RATE } from "../../src/sound/loop.js";
import { renderLine } from "../../src/sound/mix.js";
import { renderTone } from "../../src/sound/tone.js";
import { wavFile } from "../../src/sound/wav.js";
import { centsBetween, peakNear, spectrumOf } from "../sound/spectrum.js";
import { inBrowser, type Open } from "../support/browser.js";
import { sampleReport } from "./sample.js";

const REPORT = sampleReport();
const { sounding } = REPORT;

/** Keeps what the page hands to the browser: tones with their times, the context, and what reaches the loudspeaker. */
const EARS = `
  globalThis.heard = { starts: [], context: null, tap: null };
  const { start } = AudioBufferSourceNode.prototype;
  AudioBufferSourceNode.prototype.start = function (when, ...more) {
    heard.starts.push({ when, offset: more[0] ?? 0, buffer: this.buffer });
    return start.call(this, when, ...more);
  };
  const { connect } = AudioNode.prototype;
  AudioNode.prototype.connect = function (to, ...more) {
    if (to instanceof AudioDestinationNode) {
      heard.context = to.context;
      heard.tap = new AnalyserNode(to.context, { fftSize: 32768 });
      connect.call(this, heard.tap);
    }
    return connect.call(this, to, ...more);
  };
`;

interface Seen {
  /** seconds of the audio clock since the first tone, as it is heard */
  readonly clock: number;
  readonly place: string;
  /** what the slider says to those who do not see it */
  readonly valueText: string;
  /** ids of the notes whose reading, head and cell are marked */
  readonly readings: readonly string[];
  readonly heads: readonly string[];
  readonly cells: readonly string[];
}

const SEE = `(() => {
  const ids = (selector) => [...document.querySelectorAll(selector)].map((one) => one.dataset.note ?? one.id.replace("note-", ""));
  const { context, starts } = heard;
  return {
    clock: context.currentTime - (context.outputLatency || context.baseLatency || 0) - starts[0].when,
    place: document.getElementById("listen-place").textContent,
    valueText: document.getElementById("listen-position").getAttribute("aria-valuetext"),
    readings: ids(".readings .is-heard"),
    heads: ids(".note.is-heard"),
    cells: ids(".cell.is-heard"),
  };
})()`;

const see = (page: Page): Promise<Seen> => page.evaluate(SEE);

type Box = Readonly<Record<"left" | "right" | "top" | "bottom", number>>;

/** Where the cell that sounds stands, and where the bar ends. */
const PLACES = `(() => {
  const box = (selector) => document.querySelector(selector).getBoundingClientRect().toJSON();
  return { cell: box(".cell.is-heard"), bar: box("#listen") };
})()`;

/** Ids of the notes that may be marked at a moment of the line, give or take two frames of a busy machine. */
function expectedAt(seconds: number): readonly string[] {
  const near = sounding.notes.filter(({ at, lasts }) => at < seconds + 0.05 && at + lasts > seconds - 0.12);
  return near.map(({ id }) => id);
}

/** Samples that reach the loudspeaker: the last three quarters of a second. */
async function tapped(page: Page): Promise<Float32Array> {
  const samples = await page.evaluate(`(() => {
    const samples = new Float32Array(32768);
    heard.tap.getFloatTimeDomainData(samples);
    return [...samples];
  })()`);
  return Float32Array.from(samples as number[]);
}

/** Waits until an expression holds in the page, whose policy lets no text be run as a script. */
async function until(page: Page, expression: string): Promise<void> {
  await expect.poll(() => page.evaluate(expression), { timeout: 15_000, interval: 25 }).toBe(true);
}

async function withEars(open: Open, use: (page: Page) => Promise<void>): Promise<void> {
  await open({ viewport: { width: 1280, height: 900 }, reducedMotion: "reduce" }, async (page) => {
    await page.addInitScript(EARS);
    await page.reload();
    await use(page);
  });
}

async function started(page: Page): Promise<void> {
  await until(page, "heard.starts.length > 0 && heard.context.currentTime > heard.starts[0].when");
}

inBrowser(
  "the listen bar",
  async () => renderCheckPage(REPORT, await engraveReport(REPORT)),
  (open) => {
    it("is not there without scripts", async () => {
      await open({ javaScriptEnabled: false }, async (page) => {
        expect(await page.locator("#listen").isVisible()).toBe(false);
        expect(await page.getByText("san gou 1").first().isVisible()).toBe(true);
      });
    });

    it("makes no sound before it is asked", async () => {
      await withEars(open, async (page) => {
        expect(await page.locator("#listen").isVisible()).toBe(true);
        await page.waitForTimeout(300);
        expect(await page.evaluate("heard.starts.length")).toBe(0);
      });
    });

    it("plays, and marks the note that sounds: head, cell and reading", async () => {
      await withEars(open, async (page) => {
        await page.locator("#listen-play").click();
        await started(page);
        const clocks: number[] = [];
        for (let i = 0; i < 6; i++) {
          await page.waitForTimeout(450);
          const seen = await see(page);
          clocks.push(seen.clock);
          const [marked = ""] = seen.readings;
          expect(expectedAt(seen.clock), `at ${seen.clock}`).toContain(marked);
          expect([seen.heads, seen.cells]).toEqual([seen.readings, seen.readings]);
          const note = sounding.notes.find(({ id }) => id === marked);
          expect(seen.place).toBe(`bar ${sounding.bars[note?.bar ?? 0]?.label}, beat ${note?.beat}`);
          expect(seen.valueText).toBe(seen.place);
        }
        for (const [i, clock] of clocks.slice(1).entries()) expect(clock).toBeGreaterThan(clocks[i] as number);
        expect(await page.locator("#listen-play").textContent()).toBe("Pause");
      });
    });

    it("hands on the tones that Node renders, at the times of the line", async () => {
      await withEars(open, async (page) => {
        await page.locator("#listen-play").click();
        await until(page, "heard.starts.length > 2");
        const whens = (await page.evaluate("heard.starts.map(({ when }) => when)")) as number[];
        for (const [i, when] of whens.slice(0, 3).entries())
          expect(when - (whens[0] as number)).toBeCloseTo(sounding.tones[i]?.at ?? 0, 3);
        const [first] = sounding.tones;
        if (first === undefined) throw new Error("the sample has no tone");
        const mine = renderTone(first, sounding.strings[first.string - 1] as number, 0.5, 1);
        const theirs = (await page.evaluate(
          "[...heard.starts[0].buffer.getChannelData(0).subarray(0, 20000)]",
        )) as number[];
        for (const [i, sample] of theirs.entries()) expect(Math.abs(sample - (mine[i] as number))).toBeLessThan(1e-5);
      });
    });

    it("plays faster without a change of pitch", async () => {
      for (const percent of ["100", "200"])
        await withEars(open, async (page) => {
          await page.locator("#listen-speed").fill(percent);
          expect(await page.locator("#listen-tempo").textContent()).toContain(
            `${66 * (Number(percent) / 100)} quarter`,
          );
          await page.locator("#listen-play").click();
          await until(page, "heard.starts.length > 2 && heard.context.currentTime > heard.starts[0].when + 1.2");
          const whens = (await page.evaluate("heard.starts.map(({ when }) => when)")) as number[];
          const wanted = ((sounding.tones[1]?.at ?? 0) * 100) / Number(percent);
          expect((whens[1] as number) - (whens[0] as number)).toBeCloseTo(wanted, 3);
          const c2 = sounding.strings[0] as number;
          const heard = peakNear(spectrumOf(await tapped(page), 0, 32_768), c2);
          expect(Math.abs(centsBetween(c2, heard)), `at ${percent} %`).toBeLessThan(4);
        });
    });

    it("takes another speed while it plays, and goes on from where it is", async () => {
      await withEars(open, async (page) => {
        await page.locator("#listen-play").click();
        await until(page, "document.getElementById('listen-place').textContent === 'bar 1, beat 2'");
        await page.locator("#listen-speed").fill("250");
        const before = await page.evaluate("performance.now()");
        await until(page, "document.getElementById('listen-place').textContent === 'bar 2, beat 1'");
        const took = ((await page.evaluate("performance.now()")) as number) - (before as number);
        // Less than three quarter notes at 66 a minute, which take 2.7 s: at 165 they take 1.1 s.
        expect(took).toBeLessThan(2000);
      });
    });

    it("pauses, goes on, and stops", async () => {
      await withEars(open, async (page) => {
        const place = (): Promise<string | null> => page.locator("#listen-place").textContent();
        await page.locator("#listen-play").click();
        await until(page, "document.getElementById('listen-place').textContent === 'bar 1, beat 2'");
        await page.locator("#listen-play").click();
        await until(page, "heard.context.state === 'suspended'");
        const paused = await place();
        await page.waitForTimeout(1200);
        expect(await place()).toBe(paused);
        expect(await page.locator("#listen-said").textContent()).toMatch(/^Paused at bar 1, beat \d$/);
        await page.locator("#listen-play").click();
        await until(page, "document.getElementById('listen-place').textContent === 'bar 1, beat 3'");
        // What was put in line before the pause would not last so far.
        await until(page, "document.getElementById('listen-place').textContent === 'bar 2, beat 2.5'");
        expect(await page.evaluate("heard.starts.length")).toBeGreaterThan(6);
        await page.locator("#listen-stop").click();
        expect(await place()).toBe("bar 1, beat 1");
        expect(await page.locator(".is-heard").count()).toBe(0);
        await page.waitForTimeout(1000);
        const silent = await tapped(page);
        expect(Math.max(...silent.map(Math.abs))).toBeLessThan(1e-3);
        expect(await page.locator("#listen-play").textContent()).toBe("Play");
      });
    });

    it("is used by keyboard alone", async () => {
      await withEars(open, async (page) => {
        await page.locator("#listen-play").focus();
        await page.keyboard.press("Enter");
        await started(page);
        await page.keyboard.press("Space");
        expect(await page.locator("#listen-play").textContent()).toBe("Play");
        const order: string[] = [];
        for (let i = 0; i < 7; i++) {
          await page.keyboard.press("Tab");
          order.push((await page.evaluate("document.activeElement.id")) as string);
        }
        const controls = ["stop", "bar", "position", "speed", "loop", "from", "to"];
        expect(order).toEqual(controls.map((name) => `listen-${name}`));
        await page.locator("#listen-stop").press("Enter");
        await page.locator("#listen-position").focus();
        for (let i = 0; i < 5; i++) await page.keyboard.press("ArrowRight");
        expect(await page.locator("#listen-position").getAttribute("aria-valuetext")).toBe("bar 2, beat 2.5");
        await page.locator("#listen-bar").press("Enter");
        await until(page, "document.querySelector('.readings .is-heard')?.id === 'note-p1b2n1'");
      });
    });

    it("has no fault that axe-core finds while it plays", async () => {
      await withEars(open, async (page) => {
        await page.locator("#listen-play").click();
        await started(page);
        const { violations } = await new AxeBuilder({ page }).analyze();
        expect(violations.map(({ id, nodes }) => `${id}: ${nodes[0]?.html}`)).toEqual([]);
      });
    });

    it("repeats bars", async () => {
      await withEars(open, async (page) => {
        await page.locator("#listen-speed").fill("250");
        await page.locator("#listen-from").selectOption({ label: "3" });
        await page.locator("#listen-to").selectOption({ label: "2" });
        expect(await page.locator("#listen-from").inputValue()).toBe("1");
        await page.locator("#listen-loop").check();
        expect(await page.locator("#listen-place").textContent()).toBe("bar 2, beat 1");
        await page.locator("#listen-play").click();
        const places: string[] = [];
        for (let i = 0; i < 40; i++) {
          await page.waitForTimeout(100);
          places.push((await page.locator("#listen-place").textContent()) ?? "");
        }
        expect(new Set(places.map((place) => place.split(",")[0]))).toEqual(new Set(["bar 2"]));
        const rounds = places.filter((place, i) => place === "bar 2, beat 1" && places[i - 1] !== place);
        expect(rounds.length).toBeGreaterThan(1);
      });
    });

    it("keeps what sounds in view, on a phone too", async () => {
      for (const [width, height] of [
        [1280, 500],
        [390, 844],
      ] as const)
        await open({ viewport: { width, height }, reducedMotion: "reduce" }, async (page) => {
          await page.locator("#listen-speed").fill("250");
          await page.locator("#listen-position").fill("20");
          await page.locator("#listen-play").click();
          for (let i = 0; i < 6; i++) {
            await page.waitForTimeout(600);
            const { cell, bar } = (await page.evaluate(PLACES)) as Record<"cell" | "bar", Box>;
            expect(cell.left).toBeGreaterThanOrEqual(0);
            expect(cell.right).toBeLessThanOrEqual(width);
            expect(cell.bottom).toBeLessThanOrEqual(height);
            expect(cell.top).toBeGreaterThanOrEqual(Math.max(0, bar.bottom));
          }
        });
    });

    it("lets Chromium decode the sound file to the samples that were written", async () => {
      const samples = renderLine({ ...sounding, tones: sounding.tones.slice(0, 3), seconds: 1 });
      const file = Buffer.from(wavFile(samples)).toString("base64");
      await open({}, async (page) => {
        const decoded = await page.evaluate(
          `(async () => {
            const bytes = Uint8Array.from(atob("${file}"), (letter) => letter.charCodeAt(0));
            const buffer = await new OfflineAudioContext(1, 1, ${SAMPLE_RATE}).decodeAudioData(bytes.buffer);
            return { channels: buffer.numberOfChannels, samples: [...buffer.getChannelData(0).subarray(0, 30000)], length: buffer.length };
          })()`,
        );
        const {
          channels,
          length,
          samples: theirs,
        } = decoded as { channels: number; length: number; samples: number[] };
        expect([channels, length]).toEqual([1, samples.length]);
        for (const [i, sample] of theirs.entries())
          expect(Math.abs(sample - (samples[i] as number))).toBeLessThan(1e-4);
      });
    });
  },
);
