// SPDX-License-Identifier: AGPL-3.0-or-later
import type { Acceptance, Span } from "../../src/model/brief.js";
import { defineRule } from "../../src/rule/define.js";
import type { Line, PassageFinding } from "../../src/rule/types.js";

export default defineRule(
  {
    id: "stale-acceptance",
    kind: "notation",
    title: "The brief accepts what is not there",
    principle:
      "An acceptance names one rule over some bars. Where that rule finds nothing there, the acceptance is out of date.",
    why: "It would hide a fault that comes there later, and it tells the next reader something false.",
    whenRight: "While the fingering of the passage is still being tried.",
    remedy: "Take the acceptance out of the brief, or name the bars where the rule is broken.",
    sources: ["a rule of this tool"],
    unit: null,
    parameters: {},
    examples: [
      { shows: "no brief", kind: "passes", melody: "G2 C2", fingering: ["san tiao 4", "san gou 1"], finds: [] },
      {
        shows: "an acceptance where the strokes go by turns",
        kind: "breaks",
        melody: "G2 C2",
        accepts: ["alternate-strokes"],
        fingering: ["san tiao 4", "san gou 1"],
        finds: [[0, "note", "The brief accepts alternate-strokes in bar 1, and nothing there breaks it."]],
      },
      {
        shows: "an acceptance of strokes that do not",
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
    const nearest = (one: Acceptance, line: Line, bars: ReadonlyMap<string, number>): string => {
      const broken = line.found
        .filter((finding) => finding.rule === one.rule)
        .flatMap(({ notes }) => bars.get(notes.at(-1) ?? "") ?? []);
      const far = (bar: number): number => Math.min(Math.abs(bar - one.fromBar), Math.abs(bar - one.toBar));
      if (broken.length === 0) return "";
      const bar = broken.reduce((a, b) => (far(b) < far(a) ? b : a));
      return ` The nearest place where something does is bar ${line.score.bars[bar]?.label}.`;
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
              `The brief accepts ${one.rule} in ${barsIn(one)}, and nothing there breaks it.${nearest(one, line, bars)}`,
            ),
          ),
          ...empty.map((one) => told(`The brief says how ${barsIn(one)} is meant, and no note begins there.`)),
        ];
        return { looked: line.brief.accept.length + line.brief.passages.length, findings };
      },
    };
  },
);

/** "bar 3" or "bars 3-4", as the brief says it. */
function barsIn(span: Span): string {
  return `${span.fromBar === span.toBar ? "bar" : "bars"} ${span.text}`;
}

function told(message: string): PassageFinding {
  return { notes: [], severity: "note", measured: null, limit: null, message };
}
