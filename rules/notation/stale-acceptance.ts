// SPDX-License-Identifier: AGPL-3.0-or-later
import type { Acceptance, Span } from "../../src/model/brief.js";
import { inCharacters } from "../../src/model/characters.js";
import type { GivenFingering } from "../../src/model/fingering.js";
import { defineRule } from "../../src/rule/define.js";
import type { Line, PassageFinding } from "../../src/rule/types.js";
import { type Phrase, phrase, phraseOf } from "../../src/words.js";

export default defineRule(
  {
    id: "stale-acceptance",
    kind: "notation",
    title: phrase("A line of the brief that changes nothing", "编配说明里不起作用的一行"),
    principle: phrase(
      "An acceptance names one rule over some bars. Where that rule finds nothing there, the acceptance is out of date; so are a passage without notes and a pin of what the score itself writes.",
      "认可，是在某些小节里放过某一条规则。那里若本来就不犯这条规则，认可就过时了；没有音的段落、指定了谱上本来就写着的指法，也是一样。",
    ),
    why: phrase(
      "An acceptance would hide a fault that comes there later, and each of them tells the next reader something false.",
      "认可会盖住日后那里真出的毛病；这些多余的话也都会误导后来看的人。",
    ),
    whenRight: phrase("While the fingering of the passage is still being tried.", "这一段的指法还在试的时候。"),
    remedy: phrase(
      "Take the line out of the brief, or name the bars where it has something to say.",
      "把这一行从编配说明里删去，或改写成它真有用的小节。",
    ),
    sources: [phrase("a rule of this tool", "本工具自定的规则")],
    unit: null,
    parameters: {},
    examples: [
      {
        shows: phrase("no brief", "没有编配说明"),
        kind: "passes",
        melody: "G2 C2",
        fingering: ["san tiao 4", "san gou 1"],
        finds: [],
      },
      {
        shows: phrase("an acceptance where the strokes go by turns", "认可了一处，那里的弹法却本来就是轮换的"),
        kind: "breaks",
        melody: "G2 C2",
        accepts: ["alternate-strokes"],
        fingering: ["san tiao 4", "san gou 1"],
        finds: [
          [
            0,
            "note",
            phrase(
              "The brief accepts alternate-strokes in bar 1, and nothing there breaks it.",
              "编配说明在第1小节认可了alternate-strokes，那里却没有犯这条规则。",
            ),
          ],
        ],
      },
      {
        shows: phrase("an acceptance of strokes that do not", "认可了一处，那里的弹法确实没有轮换"),
        kind: "exception",
        melody: "G2 C2",
        tempo: 120,
        accepts: ["alternate-strokes"],
        fingering: ["san gou 4", "san gou 1"],
        finds: [],
      },
    ],
  },
  () => {
    const barOf = (line: Line): ReadonlyMap<string, number> =>
      new Map(line.score.notes.map((note) => [note.id, note.bar]));

    const inside = (span: Span, bars: readonly number[]): boolean =>
      bars.length > 0 && bars.every((bar) => bar >= span.fromBar && bar <= span.toBar);

    /** Where the rule is broken nearest to the span, in words; empty where it is nowhere. */
    const nearest = (one: Acceptance, line: Line, bars: ReadonlyMap<string, number>): Phrase => {
      const broken = line.found
        .filter((finding) => finding.rule === one.rule)
        .flatMap(({ notes }) => bars.get(notes.at(-1) ?? "") ?? []);
      const far = (bar: number): number => Math.min(Math.abs(bar - one.fromBar), Math.abs(bar - one.toBar));
      if (broken.length === 0) return phrase("", "");
      const bar = broken.reduce((a, b) => (far(b) < far(a) ? b : a));
      const label = line.score.bars[bar]?.label;
      return phrase(
        ` The nearest place where something does is bar ${label}.`,
        `真犯这条规则的地方，最近的是第${label}小节。`,
      );
    };

    return {
      reach: "passage",
      look: (line) => {
        const bars = barOf(line);
        const stale = line.brief.accept.filter(
          (one) =>
            !line.found.some(
              ({ rule, notes }) =>
                rule === one.rule &&
                inside(
                  one,
                  notes.map((id) => bars.get(id) ?? -1),
                ),
            ),
        );
        const empty = line.brief.passages.filter(
          (passage) => !line.score.notes.some((note) => inside(passage, [note.bar])),
        );
        const findings: PassageFinding[] = [
          ...stale.map((one) =>
            told(
              phraseOf({
                en: (say) =>
                  `The brief accepts ${one.rule} in ${say(barsIn(one))}, and nothing there breaks it.${say(nearest(one, line, bars))}`,
                zh: (say) =>
                  `编配说明在${say(barsIn(one))}认可了${one.rule}，那里却没有犯这条规则。${say(nearest(one, line, bars))}`,
              }),
            ),
          ),
          ...empty.map((one) =>
            told(
              phraseOf({
                en: (say) => `The brief says how ${say(barsIn(one))} is meant, and no note begins there.`,
                zh: (say) => `编配说明写了${say(barsIn(one))}的用意，那里却没有音起头。`,
              }),
            ),
          ),
          ...repeatedPins(line),
        ];
        const { accept, passages, pins } = line.brief;
        return { looked: accept.length + passages.length + pins.length, findings };
      },
    };
  },
);

/** "bar 3" or "bars 3-4", as the brief says it. */
function barsIn({ fromBar, toBar, text }: Span): Phrase {
  return phrase(`${fromBar === toBar ? "bar" : "bars"} ${text}`, `第${text.replace("-", "至")}小节`);
}

/** Pins of nothing but what the writer of the score has put in print. What huipath wrote into it itself is no repetition. */
function repeatedPins({ brief, moments, score }: Line): readonly PassageFinding[] {
  const notes = new Map(moments.flatMap((moment) => moment.notes.map(({ source }) => [source.id, source] as const)));
  return brief.pins.flatMap((pin) => {
    const note = notes.get(pin.note);
    if (note === undefined || !note.given.written || !repeats(pin.given, note.given)) return [];
    const label = score.bars[note.bar]?.label;
    const message = phrase(
      `The brief pins the note on bar ${label}, beat ${note.beat} to what the score writes there already, ${note.given.text}.`,
      `编配说明给第${label}小节第${note.beat}拍的音指定的“${inCharacters(note.given.text)}”，谱上本来就写着。`,
    );
    return [{ ...told(message), notes: [note.id] }];
  });
}

function repeats(pin: GivenFingering, given: GivenFingering): boolean {
  const { text: _, written: __, held: ___, ...wishes } = pin;
  const own = new Map<string, unknown>(Object.entries(given));
  return Object.entries(wishes).every(([key, value]) => value === null || own.get(key) === value);
}

function told(message: Phrase): PassageFinding {
  return { notes: [], severity: "note", measured: null, limit: null, message };
}
