// SPDX-License-Identifier: AGPL-3.0-or-later
import { createHash } from "node:crypto";
import { gzipSync } from "node:zlib";
import { beforeAll, describe, expect, it } from "vitest";
import { renderCheckPage } from "../../reports/check-page.js";
import { engraveReport } from "../../src/engrave/music.js";
import type { BetterJson, FindingJson, Report } from "../../src/report.js";
import type { Severity } from "../../src/rule/types.js";
import { sampleReport } from "./sample.js";

const render = async (report: Report): Promise<string> => renderCheckPage(report, await engraveReport(report));

/** The text of a page without markup, spaces joined. */
function plain(html: string): string {
  return html
    .replace(/<style>[\s\S]*?<\/style>/, "")
    .replace(/<script[\s\S]*?<\/script>/g, "")
    .replace(/<[^>]+>/g, " ")
    .replace(/&#(\d+);/g, (_, code) => String.fromCharCode(Number(code)))
    .replace(/&#x([\dA-F]+);/gi, (_, code) => String.fromCharCode(Number.parseInt(code, 16)))
    .replace(/&quot;/g, '"')
    .replace(/&lt;/g, "<")
    .replace(/&gt;/g, ">")
    .replace(/&amp;/g, "&")
    .replace(/\s+/g, " ");
}

/** The report's JSON with findings of one rule, each like its first but for what is given. */
function json(findings: readonly Partial<FindingJson>[]): Report["json"] {
  const [first] = report.json.findings as [FindingJson];
  const plainly = { ...first, blocked: 0, remedy: null, unavoidable: false };
  return { ...report.json, findings: findings.map((more, i) => ({ ...plainly, id: `made-${i}`, ...more })) };
}

let report: Report;
let html: string;
beforeAll(async () => {
  report = sampleReport();
  html = await render(report);
});

describe("the page", () => {
  it("comes in the order in which it is to be read", () => {
    const order = ["answer", "score", "findings", "pictures", "notes", "positions", "cost", "checked", "settings"];
    const places = order.map((id) => html.indexOf(`<section id="${id}"`));
    expect(places.every((place) => place > 0)).toBe(true);
    expect(places).toEqual([...places].sort((a, b) => a - b));
  });

  it("says who made it", () => {
    expect(html).toContain('<meta name="generator" content="huipath">');
  });

  it("loads nothing from anywhere", () => {
    expect(html).not.toMatch(/<(link|iframe|img|object|embed|base|form)\b/i);
    expect(html).not.toMatch(/\ssrc(set)?=/i);
    expect(html).not.toMatch(/url\(|@import|https?:\/\/|\/\/[a-z]/i);
    for (const [, href] of html.matchAll(/\shref="([^"]*)"/g)) expect(href).toMatch(/^#/);
  });

  it("has one script, its own, which alone its policy lets run, and a block of data for each part that needs one", () => {
    const elements = [...html.matchAll(/<script([^>]*)>([\s\S]*?)<\/script>/g)];
    expect(elements.map(([, attributes]) => attributes)).toEqual([' type="application/json" id="listen-data"', ""]);
    const hash = createHash("sha256")
      .update(elements.at(-1)?.[2] ?? "")
      .digest("base64");
    const [, policy = ""] = /http-equiv="Content-Security-Policy" content="([^"]*)"/.exec(html) ?? [];
    const allowed = policy.replace(/&#x27;/g, "'").replace(/&#x3D;/g, "=");
    expect(allowed).toContain(`default-src 'none'; style-src 'unsafe-inline'; script-src 'sha256-${hash}';`);
    expect(html.indexOf("<script")).toBeGreaterThan(html.indexOf("</main>"));
  });

  // Budgets of the project, not of any outside source.
  it("has a script of at most 12 KB as it travels, and little data for the sound", () => {
    const texts = [...html.matchAll(/<script[^>]*>([\s\S]*?)<\/script>/g)].map(([, text]) => text);
    const [data = "", script = ""] = [texts[0], texts.at(-1)];
    expect(gzipSync(script).length).toBeLessThan(12_000);
    expect(data.length / report.score.notes.length).toBeLessThan(90);
  });

  it("leads every link to a place in the page, and names every place once", () => {
    const ids = [...html.matchAll(/\sid="([^"]+)"/g)].map((match) => match[1]);
    expect(new Set(ids).size).toBe(ids.length);
    for (const [, href] of html.matchAll(/\shref="#([^"]*)"/g)) expect(ids).toContain(href);
  });

  it("has an anchor for every bar, note and finding", () => {
    for (const bar of report.score.bars) expect(html).toContain(`id="bar-${bar.label}"`);
    for (const note of report.score.notes) expect(html).toContain(`id="note-${note.id}"`);
    for (const finding of report.json.findings) expect(html).toContain(`id="f-${finding.id}"`);
  });

  it("prints the verdict, every reading, every message and every reason", () => {
    const text = plain(html);
    expect(text).toContain(report.json.verdict.sentence);
    for (const note of report.json.fingering.notes) expect(text).toContain(note.spoken ?? "no place");
    for (const finding of report.json.findings) {
      expect(text).toContain(finding.message);
      if (finding.reason !== null) expect(text).toContain(finding.reason);
      if (finding.remedy !== null) expect(text).toContain(finding.remedy.text);
    }
    for (const assumption of report.assumptions) expect(text).toContain(assumption);
  });

  it("puts a price beside what it is a part of", () => {
    expect(plain(html)).toContain(`Costs 1 spare move of the line's ${report.json.fingering.total.effort}.`);
  });

  it("is the same every time", async () => {
    expect(await render(report)).toBe(html);
  });

  // Budgets of the project, not of any outside source.
  it.each([
    [1, 300],
    [4, 900],
  ])("of %i times sixteen bars stays under %i KB", async (times, kilobytes) => {
    const page = await render(sampleReport(times));
    expect(Buffer.byteLength(page)).toBeLessThan(kilobytes * 1000);
  });
});

describe("findings", () => {
  it("of one rule share one entry, three shown and the others folded", () => {
    expect(html.match(/id="rule-alternate-strokes"/g)).toHaveLength(1);
    const entry = html.slice(
      html.indexOf('id="rule-alternate-strokes"'),
      html.indexOf("</article>", html.indexOf('id="rule-alternate-strokes"')),
    );
    const before = entry.slice(0, entry.indexOf('<details class="more '));
    expect(before.match(/<li id="f-/g)).toHaveLength(3);
    expect(plain(entry)).toMatch(/3 more places: bars [\d, ]+/);
  });

  it("are counted by severity in the head of their entry", async () => {
    const counted = json(["problem", "note", "note"].map((severity) => ({ severity: severity as Severity })));
    expect(plain(await render({ ...report, json: counted }))).toMatch(
      /1 place a player would ask about +2 worth knowing/,
    );
  });

  it("say what helps at each place, or once where that is the same", async () => {
    const remedy = { text: "Another way: so.", blockedAfter: 1, effortAfter: 2, changes: [], music: null };
    const own = plain(await render({ ...report, json: json([{ remedy }, {}]) }));
    expect(own).toContain("To avoid it here: Another way: so. The line then costs 2 spare moves instead of");
    const shared = plain(await render({ ...report, json: json([{ remedy }, { remedy }]) }));
    expect(shared.split("Another way: so.")).toHaveLength(2);
    expect(shared).toContain("To avoid it at all these places: Another way: so.");
    expect(shared).toContain("In general:");
  });

  it("say that no fingering helps only where that was found", async () => {
    const music = { from: "E6", to: "E5" };
    const remedy = { text: "Take it an octave lower.", blockedAfter: 0, effortAfter: 2, changes: [], music };
    const page = async (more: Partial<FindingJson>): Promise<string> =>
      plain(await render({ ...report, json: json([more]) }));
    expect(await page({})).not.toContain("No other fingering");
    expect(await page({ unavoidable: true })).toContain(
      "No other fingering avoids this; the notes would have to change.",
    );
    expect(await page({ unavoidable: true, remedy })).toContain(
      "No other fingering avoids this. A change of the music that avoids it: Take it an octave lower.",
    );
  });

  it("of a note that cannot be played say that it is left out", () => {
    expect(plain(html)).toContain("The note is left out; the line goes on without it.");
  });

  it("stand worst first within their group, and only groups with findings are printed", () => {
    expect(html.indexOf('id="rule-above-the-board"')).toBeLessThan(html.indexOf('id="rule-thin-register"'));
    const groups = [...html.matchAll(/<h3>(\w+) <span class="about">/g)].map((match) => match[1]);
    expect(groups).toEqual(["Range", "Idiom", "Efficiency"]);
  });

  it("that are accepted are kept apart, with the reason", () => {
    const apart = html.slice(html.indexOf("Left alone on purpose"));
    for (const finding of report.json.findings.filter(({ status }) => status === "accepted"))
      expect(apart).toContain(`id="f-${finding.id}"`);
  });

  it("are marked above the staff with shape and number, linked to the finding", () => {
    const marks = [...html.matchAll(/<a class="mark sev-(\w+)" href="#f-([^"]+)"/g)];
    expect(marks.length).toBeGreaterThan(5);
    expect(new Set(marks.map((match) => match[1]))).toEqual(new Set(["blocker", "problem", "caution", "note"]));
  });

  it("of the whole line, on the upper note of a chord, and none at all, are printed too", async () => {
    const upper = report.score.notes.at(-1)?.id ?? "";
    const [first] = report.json.findings as [FindingJson];
    const whole: FindingJson = {
      ...first,
      id: "whole",
      bar: null,
      beat: null,
      notes: [],
      message: "No tempo is given.",
    };
    const chord: FindingJson = { ...first, id: "upper", bar: "16", beat: "1", notes: [upper], severity: "note" };
    const page = await render({ ...report, json: { ...report.json, findings: [whole, chord] } });
    expect(plain(page)).toContain("The whole line");
    expect(page).toContain('href="#f-upper"');
    const none = await render({ ...report, json: { ...report.json, findings: [] } });
    expect(plain(none)).toContain("it plays well");
  });
});

const EVIL = `"><script>alert('x')</script><img src=x onerror=alert(1)>{{own style}}&amp;`;

/** Changes whose every word is hostile. */
function spoilt(changes: BetterJson["changes"]): BetterJson["changes"] {
  return changes.map(({ note }) => ({ note: `${note}${EVIL}`, bar: EVIL, beat: EVIL, from: EVIL, to: EVIL }));
}

describe("a hostile score", () => {
  it("cannot bring markup into the page", async () => {
    const { json, score } = report;
    const page = await render({
      ...report,
      transposition: EVIL,
      assumptions: [EVIL],
      sounding: {
        ...report.sounding,
        notes: report.sounding.notes.map((note) => ({ ...note, id: `${note.id}${EVIL}`, beat: EVIL })),
        bars: report.sounding.bars.map((bar) => ({ ...bar, label: `${bar.label}${EVIL}` })),
      },
      figures: [{ value: EVIL, label: EVIL }],
      score: {
        ...score,
        title: EVIL,
        creator: EVIL,
        part: { id: EVIL, name: EVIL },
        bars: score.bars.map((bar) => ({ ...bar, label: `${bar.label}${EVIL}` })),
        notes: score.notes.map((note) => ({ ...note, id: `${note.id}${EVIL}` })),
        slurs: [],
      },
      json: {
        ...json,
        score: { ...json.score, file: EVIL, title: EVIL },
        fingering: {
          ...json.fingering,
          notes: json.fingering.notes.map((note) => ({ ...note, id: `${note.id}${EVIL}`, bar: `${note.bar}${EVIL}` })),
          better: (json.fingering.better ?? []).map((line) => ({
            ...line,
            changes: spoilt(line.changes),
            places: line.places.map((one) => ({
              ...one,
              notes: one.notes.map((id) => `${id}${EVIL}`),
              place: EVIL,
              rest: EVIL,
              sentence: `${EVIL}: ${EVIL}`,
            })),
          })),
          taste: {
            written: {
              ...{ possible: false, weights: [], sentence: EVIL, rounds: 1 },
              dominated: { rules: [EVIL], changes: spoilt(json.fingering.better?.[0]?.changes ?? []) },
            },
            flips: (json.fingering.taste?.flips ?? []).map((flip) => ({
              ...flip,
              changes: spoilt(flip.changes),
              sentence: EVIL,
            })),
            robust: 1,
          },
        },
        findings: json.findings.map((finding) => ({
          ...finding,
          id: `${finding.id}${EVIL}`,
          bar: `${finding.bar}${EVIL}`,
          message: EVIL,
          reason: EVIL,
          notes: finding.notes.map((id) => `${id}${EVIL}`),
        })),
        unread: [{ bar: EVIL, what: EVIL }],
      },
    });
    expect(page.match(/<script/gi)).toHaveLength(2);
    expect(/<img/i.test(page)).toBe(false);
    const [, data = ""] = /id="listen-data">([\s\S]*?)<\/script>/.exec(page) ?? [];
    expect(data).not.toContain("<");
    expect(JSON.parse(data).line.notes[0][0]).toContain(EVIL);
    const withoutValues = page.replace(/"[^"]*"/g, '""');
    expect(/<[^>]*\son\w+\s*=/i.test(withoutValues)).toBe(false);
    expect(plain(page).includes(EVIL)).toBe(true);
    const ids = [...page.matchAll(/\sid="([^"]+)"/g)].map((match) => match[1] ?? "");
    expect(new Set(ids).size).toBe(ids.length);
    for (const id of ids) expect(id).toMatch(/^[A-Za-z][\w.-]*$/);
    for (const [, href] of page.matchAll(/\shref="#([^"]*)"/g)) expect(ids).toContain(href);
  });

  it("that cannot be engraved still gets its report, with one sentence about it", async () => {
    const first = report.score.bars[0];
    if (first === undefined) throw new Error("no bar");
    const score = {
      ...report.score,
      notes: report.score.notes.map((note, i) => (i === 0 ? { ...note, duration: note.duration.div(3001) } : note)),
    };
    const page = await render({ ...report, score });
    expect(plain(page)).toMatch(/The staff could not be drawn \(.+?\)\./);
    expect(page).not.toContain('class="staff"');
    expect(page).toContain('id="bar-16"');
    for (const [, href] of page.matchAll(/\shref="#([^"]*)"/g)) expect(page).toContain(`id="${href}"`);
  });

  it("with the same bar label twice has two anchors", async () => {
    const bars = report.score.bars.map((bar) => (bar.index === 1 ? { ...bar, label: "1" } : bar));
    const page = await render({ ...report, score: { ...report.score, bars } });
    expect(page).toContain('id="bar-1"');
    expect(page).toContain('id="bar-1.2"');
  });
});
