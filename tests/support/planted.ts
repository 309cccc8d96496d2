// SPDX-License-Identifier: AGPL-3.0-or-later
// A score in which every place that can hold a text holds markup, script and characters that turn or command.
// The ways to break out of markup are common practice; the characters are those of Unicode's Bidi_Control and of ISO 6429.
import { readFileSync } from "node:fs";
import { fileURLToPath } from "node:url";
import { parse } from "yaml";
import { SETTING_FIELD } from "../../src/model/annotation.js";

/** What a planted text would set if any of it ran. */
export const CANARY = "__planted";

const RUNS = `${CANARY}=1`;

/** Breakouts that fit where forty characters are passed on. */
const SHORT = [
  `<script>${RUNS}</script>`,
  `"><img src=x onerror=${RUNS}>`,
  `'><svg onload=${RUNS}>`,
  `" onfocus=${RUNS} autofocus x="`,
  `' onmouseover='${RUNS}`,
  `]]><a href=javascript:${RUNS}>,#{[`,
  `{{${CANARY}}} {{{constructor}}}`,
];

/** Breakouts for places that pass on a whole text. */
const WHOLE = [
  ...SHORT,
  `</style></title></script></svg></textarea>--><script>${RUNS}</script>`,
  `&lt;img src=x onerror=${RUNS}&gt;&#60;b&#62;`,
  `\${${RUNS}} \\u003cscript\\u003e`,
  "\u009b31m\u0085\u007f\u2028\u2029\u202eturned\u202c\u2066\u2069",
].join(" ");

/** A text for one place: its name, by which it is found again, and every breakout. */
export const planted = (place: string): string => `${place} ${WHOLE}`;

/** Text between tags or in a double-quoted attribute. */
const inXml = (text: string): string =>
  text.replace(/[&<>"'\u007f-\u009f\u2028\u2029]/g, (found) => `&#${found.charCodeAt(0)};`);
const text = (place: string): string => inXml(planted(place));

/** Names of the two parts, the bars and the voices as the planted score has them. */
export const PART = `P-own ${SHORT[1]}`;
const OTHER_PART = `P-other ${SHORT[0]}`;
export const BARS: readonly string[] = SHORT.map((breakout, i) => `${i + 1}${breakout}`.slice(0, 40));
const VOICE = `own ${SHORT[2]}`;
const OTHER_VOICE = `other ${SHORT[3]}`;

/** The bytes of a hand of ours. */
const HAND: Readonly<Record<string, number>> = parse(
  readFileSync(fileURLToPath(new URL("../../rules/hands/medium.yaml", import.meta.url)), "utf8"),
);

/** What a planted score may store: all texts of it hostile that are free texts. */
const STORED = JSON.stringify({
  tuning: "zhengdiao",
  transpose: "1P",
  temperament: "pythagorean",
  hand: { name: planted("stored hand"), figures: HAND },
  line: { part: PART, voice: VOICE },
});

const STEPS = ["C3", "D3", "F3", "G3", "A3", "C4", "D3", "C3"];

function note(bar: number, index: number, voice: string, behind = ""): string {
  const [step, octave] = STEPS[(bar + index) % STEPS.length] as string;
  return `<note id="${text(`note id ${bar} ${index} ${voice.slice(0, 3)}`)}">
<pitch><step>${step}</step><octave>${octave}</octave></pitch>
<duration>1</duration>
<voice>${inXml(voice)}</voice>
<notehead-text><display-text>${text("notehead")}</display-text></notehead-text>${behind}
</note>`;
}

const TECHNICAL = `
<notations>
<technical><fingering>${text("fingering")}</fingering><pluck>${text("pluck")}</pluck><other-technical>${text("other-technical")}</other-technical><handbell>${text("handbell")}</handbell></technical>
<other-notation type="single">${text("other-notation")}</other-notation>
<dynamics><other-dynamics>${text("other-dynamics of a note")}</other-dynamics></dynamics>
<ornaments><other-ornament>${text("other-ornament")}</other-ornament></ornaments>
<articulations><other-articulation>${text("other-articulation")}</other-articulation></articulations>
<glissando type="start" number="1">${text("glissando")}</glissando>
</notations>`;

const lyrics = (place: string): string => `
<lyric number="${inXml(SHORT[4] as string)}" name="${text("lyric name")}"><text>${text(`lyric ${place}`)}</text><elision>${text("elision")}</elision><text>${text("second text")}</text><extend/></lyric>
<lyric number="2"><text>da 9 gou ${inXml(SHORT[1] as string)}</text></lyric>`;

const DIRECTIONS = `
<direction><direction-type><words>${text("words")}</words></direction-type></direction>
<direction><direction-type><rehearsal>${text("rehearsal")}</rehearsal></direction-type></direction>
<direction><direction-type><dynamics><other-dynamics>${text("other-dynamics")}</other-dynamics></dynamics></direction-type></direction>
<direction><direction-type><metronome><beat-unit>quarter</beat-unit><per-minute>${text("per-minute")}</per-minute></metronome></direction-type></direction>
<direction><direction-type><other-direction>${text("other-direction")}</other-direction></direction-type></direction>
<harmony><root><root-step text="${text("chord root")}">C</root-step></root><kind text="${text("chord")}">major</kind></harmony>
<figured-bass><figure><prefix>${text("prefix")}</prefix></figure></figured-bass>
<barline location="left"><ending type="start" number="1">${text("ending")}</ending></barline>`;

function bar(label: string, index: number): string {
  const signs = `<attributes><divisions>1</divisions><key><fifths>0</fifths><mode>${text("mode")}</mode></key><time><beats>4</beats><beat-type>4</beat-type></time></attributes>`;
  const named = index % 2 === 0 ? `number="${inXml(label)}"` : `number="${index}" text="${inXml(label)}"`;
  const own = [0, 1, 2, 3].map((n) =>
    note(index, n, VOICE, (index + n) % 3 === 0 ? TECHNICAL + lyrics(`${index} ${n}`) : lyrics(`${index} ${n}`)),
  );
  return `<measure ${named}>${index === 0 ? signs : ""}${index === 0 ? DIRECTIONS : ""}
${own.join("\n")}
<backup><duration>4</duration></backup>
${note(index, 5, OTHER_VOICE)}
</measure>`;
}

function scorePart(id: string, place: string): string {
  return `<score-part id="${inXml(id)}">
<identification><creator type="lyricist">${text("part creator")}</creator></identification>
<part-name>${text(`${place} name`)}</part-name>
<part-name-display><display-text>${text("display name")}</display-text></part-name-display>
<part-abbreviation>${text("abbreviation")}</part-abbreviation>
<group>${text("group")}</group>
<score-instrument id="${place}"><instrument-name>${text("instrument")}</instrument-name><instrument-sound>${text("sound")}</instrument-sound></score-instrument>
</score-part>`;
}

/**
 * The document.
 *
 * @param title whether it has one; without, the file's name stands for it
 */
export function plantedScore(title = true): string {
  const titles = `<work><work-number>${text("work-number")}</work-number><work-title>${text("work-title")}</work-title></work>
<movement-number>${text("movement-number")}</movement-number>
<movement-title>${text("movement-title")}</movement-title>`;
  const credits = `<credit page="1"><credit-type>title</credit-type><credit-words font-size="20">${text("credit")}</credit-words></credit>`;
  return `<?xml version="1.0" encoding="UTF-8"?>
<!-- ${SHORT[0]} -->
<?planted ${SHORT[1]}?>
<score-partwise version="4.0">
${title ? titles : ""}
<identification>
<creator type="composer">${text("composer")}</creator>
<creator type="${text("creator type")}">${text("creator")}</creator>
<rights>${text("rights")}</rights>
<encoding><software>${text("software")}</software></encoding>
<source>${text("source")}</source>
<miscellaneous>
<miscellaneous-field name="${SETTING_FIELD}">${inXml(STORED)}</miscellaneous-field>
<miscellaneous-field name="${text("field name")}">${text("field")}</miscellaneous-field>
</miscellaneous>
</identification>
${title ? credits : ""}
<part-list>
<part-group type="start" number="1"><group-name>${text("group-name")}</group-name></part-group>
${scorePart(PART, "own")}
${scorePart(OTHER_PART, "other")}
</part-list>
<part id="${inXml(PART)}">
${BARS.map(bar).join("\n")}
</part>
<part id="${inXml(OTHER_PART)}">
${BARS.map((label) => `<measure number="${inXml(label)}"><note><pitch><step>C</step><octave>2</octave></pitch><duration>1</duration></note></measure>`).join("\n")}
</part>
</score-partwise>
`;
}

/** A brief whose free texts are hostile, comments behind its lines with them. */
export function plantedBrief(): string {
  const quoted = (place: string): string => JSON.stringify(planted(place));
  return `passages:
  - { bars: "#2", character: struggling, reason: ${quoted("passage reason")} }
accept:
  - { rule: unread-fingering, bars: "#1", reason: ${quoted("accepted reason")} }
pins:
  - { bar: "#4", beat: 2, string: 7, stroke: gou } # ${SHORT[0]} ${SHORT[1]}
`;
}

/** A file name of which every character that a file system allows may be met. */
export const FILE_NAME = `"'><img src=x onerror=${RUNS}>{{x}}\u009b31m\u202ename.musicxml`;
