// SPDX-License-Identifier: AGPL-3.0-or-later
// The Report: a plain value that every output is made from. No markup here.
import type { Arrival, Compound, Contact, Finger, Sound, Stroke } from "./model/fingering.js";
import type { Score } from "./model/score.js";
import type { CertificateJson } from "./report/certificate.js";
import type { ChangeJson } from "./report/change-json.js";
import type { Pictures } from "./report/pictures.js";
import type { PracticeJson, StudyJson } from "./report/practice-json.js";
import type { SettingJson } from "./report/setting.js";
import type { RuleKind, Severity } from "./rule/types.js";
import type { SoundLine } from "./sound/line.js";
import type { Said } from "./words.js";

export type { RuleKind, SettingJson };

/** `--json` of `check`: names are fixed by the published schema; every key is always there. */
export interface CheckJson {
  readonly schema: 1;
  readonly tool: { readonly name: string; readonly version: string };
  readonly command: "check";
  readonly score: {
    readonly file: string;
    readonly title: string | null;
    readonly part: string;
    readonly voice: string | null;
    /** why this line was read, between how many; null where there was nothing to choose, or the call chose */
    readonly choice: { readonly lines: number; readonly reason: Said } | null;
    /** the lines that were not read, with the options that take them; `voice` is null where a part has one line only */
    readonly others: readonly {
      readonly part: string;
      readonly voice: string | null;
      readonly notes: number;
      readonly options: string;
    }[];
    readonly bars: number;
    readonly notes: number;
    /** quarter notes a minute at the start */
    readonly tempo: number;
    readonly tempoAssumed: boolean;
  };
  readonly setting: SettingJson;
  readonly verdict: { readonly playable: boolean; readonly sentence: Said };
  readonly fingering: {
    readonly source: "submitted" | "completed" | "searched";
    readonly total: CostJson;
    readonly notes: readonly NoteJson[];
    readonly bill: readonly BillJson[];
    /** lines that cost less than a written one, fewest changes first, the best last; null where nothing was written */
    readonly better: readonly BetterJson[] | null;
    readonly objective: ObjectiveJson;
    /** fingerings that really differ, this one first; null where none were asked for */
    readonly ways: readonly WayJson[] | null;
    /** figures that were kept alike on purpose; null where that was not asked for */
    readonly sameFigures: SameFiguresJson | null;
    /** what a change of taste would change; null where it was not asked for */
    readonly taste: TasteJson | null;
  };
  readonly findings: readonly FindingJson[];
  readonly tallies: readonly TallyJson[];
  /** what the fingering exercises */
  readonly practice: PracticeJson;
  /** a study of one sign; null where none was asked for */
  readonly study: StudyJson | null;
  readonly unread: readonly { readonly bar: string | null; readonly what: Said }[];
}

/** What the search was to make small: the sum of all charges, or the largest single one. */
export interface ObjectiveJson {
  readonly wanted: "total" | "worst";
  /** the dearest single charge of the line; null where nothing is charged */
  readonly worst: { readonly rule: string; readonly notes: readonly string[]; readonly effort: number } | null;
  /** the line of least total, where the easiest worst moment was wanted */
  readonly instead: { readonly total: CostJson; readonly worst: number } | null;
}

/** One of several fingerings that differ. */
export interface WayJson extends BetterJson {
  /** what sets it apart from the first */
  readonly traits: readonly Said[];
  /** the share of its notes that lie elsewhere than in the first */
  readonly elsewhere: number;
}

/** What it took to keep returning figures on their places. */
export interface SameFiguresJson {
  /** what one figure was allowed to cost, in spare moves */
  readonly price: number;
  readonly made: number;
  readonly left: number;
  /** what the line costs more than the best one, in spare moves */
  readonly more: number;
}

/** What a rule weighs, and what it would weigh; as a brief's `weights` say it. */
export interface WeightJson {
  readonly rule: string;
  readonly from: number;
  readonly to: number;
}

/** For whom the fingering is the best one, and which of its choices are a matter of taste. */
export interface TasteJson {
  readonly written: WrittenTasteJson | null;
  readonly flips: readonly FlipJson[] | null;
  /** notes that stay as they are in every one of the changes of weight that were tried; null where `flips` is */
  readonly robust: number | null;
}

/** The smallest change of weights under which a written fingering is the best one. */
export interface WrittenTasteJson {
  /** null where it was not settled */
  readonly possible: boolean | null;
  /** rules that weigh something else then; none where it is the best as the rules weigh now, or can not be */
  readonly weights: readonly WeightJson[];
  /** another way that costs more under no rule and less under these; null where none was found, or none was looked for */
  readonly dominated: { readonly rules: readonly string[]; readonly changes: BetterJson["changes"] } | null;
  readonly sentence: Said;
  /** how often a best line was searched */
  readonly rounds: number;
}

/** What is played another way when one rule weighs something else. */
export interface FlipJson extends WeightJson {
  readonly changes: BetterJson["changes"];
  readonly sentence: Said;
}

/** A line that costs less than the written one, by some changes of it. */
export interface BetterJson {
  readonly total: CostJson;
  readonly changes: readonly {
    readonly note: string;
    readonly bar: string;
    readonly beat: string;
    readonly from: string;
    readonly to: string;
  }[];
  /** what each changed place saves and costs, in score order */
  readonly places: readonly ChangeJson[];
}

/** Blocked moves first, then effort in spare moves (thousandths as a decimal). */
export interface CostJson {
  readonly blocked: number;
  readonly effort: number;
}

/** One note with its fingering. */
export interface NoteJson {
  readonly id: string;
  readonly bar: string;
  readonly beat: string;
  readonly written: string;
  readonly sounding: string;
  readonly grace: boolean;
  readonly chord: string | null;
  readonly sound: Sound | null;
  readonly string: number | null;
  readonly position: number | null;
  /** the place as the score or the brief writes it, where it does */
  readonly writtenPosition: number | null;
  readonly finger: Finger | null;
  readonly contact: Contact | null;
  readonly arrival: Arrival | null;
  readonly stroke: Stroke | null;
  readonly compound: Compound | null;
  readonly planted: number | null;
  readonly spoken: string | null;
  readonly given: readonly string[];
  readonly blocked: number;
  readonly effort: number;
  /** other places, fingers and strokes with what the whole line would cost more, cheapest first */
  readonly alternatives: readonly {
    readonly spoken: string;
    readonly sound: Sound;
    readonly string: number;
    readonly position: number | null;
    readonly blockedMore: number;
    readonly effortMore: number;
    /** the line of a brief that pins the note so; null where a brief has no words for it */
    readonly pin: string | null;
  }[];
}

/** A note with its place and strokes. */
export type PlacedNote = Pick<
  NoteJson,
  | "id"
  | "chord"
  | "sound"
  | "string"
  | "position"
  | "writtenPosition"
  | "finger"
  | "contact"
  | "arrival"
  | "stroke"
  | "compound"
  | "planted"
  | "spoken"
>;

/** One rule's charge at one place; it belongs to the last of its notes. */
export interface BillJson extends CostJson {
  readonly rule: string;
  readonly notes: readonly string[];
}

/** A change that takes a finding away. */
export interface RemedyJson {
  readonly text: Said;
  readonly blockedAfter: number;
  readonly effortAfter: number;
  /** notes that are then played another way; none where the notes, the tempo or the setting are changed */
  readonly changes: BetterJson["changes"];
  /** what is changed beside the fingering, in a few words; null where nothing is */
  readonly music: { readonly from: Said; readonly to: Said } | null;
}

/** One finding. */
export interface FindingJson extends CostJson {
  readonly id: string;
  readonly rule: string;
  readonly kind: RuleKind;
  readonly severity: Severity;
  readonly status: "open" | "accepted" | "unsure";
  /** printed label; null for a finding on the whole line */
  readonly bar: string | null;
  readonly beat: string | null;
  readonly notes: readonly string[];
  readonly measured: number | null;
  readonly limit: number | null;
  readonly unit: string | null;
  readonly message: Said;
  /** the change that takes the finding away; null where none was found or none was looked for */
  readonly remedy: RemedyJson | null;
  /** every other fingering of the place was searched and none avoids the finding: a remedy then changes the music */
  readonly unavoidable: boolean;
  readonly reason: string | null;
  /** the rule whose finding about the whole line explains this one; null where it stands by itself */
  readonly followsFrom: string | null;
}

/** What one rule looked at and found. */
export interface TallyJson {
  readonly rule: string;
  /** places looked at where the rule applies */
  readonly looked: number;
  readonly open: number;
  readonly accepted: number;
  /** places where it could not tell */
  readonly unsure: number;
  /** the message of a rule that crashed; null otherwise */
  readonly crashed: string | null;
}

/** A rule's own words, for the page and the guide. */
export interface RuleText {
  readonly id: string;
  readonly kind: RuleKind;
  readonly title: Said;
  readonly principle: Said;
  readonly why: Said;
  readonly whenRight: Said;
  readonly remedy: Said;
}

/** One scale tone's places on one string, with how often this melody stops there. */
export interface TableCell {
  /** written places up to hui 4, 14 for the open string */
  readonly places: readonly { readonly position: number; readonly uses: number }[];
}

/** The note-position table of the tuning and mode. */
export interface PositionTable {
  /** such as "F" */
  readonly gong: string;
  /** rows from gong upward: degree ("1", "2", "♯4"), its name and pitch class, whether it is one of the five of the pentatonic scale */
  readonly rows: readonly {
    readonly degree: string;
    readonly name: string;
    readonly pitchClass: string;
    readonly core: boolean;
    /** string 1 to 7 */
    readonly cells: readonly TableCell[];
  }[];
  /** harmonics that this melody uses: string, hui, sounding pitch, uses */
  readonly harmonics: readonly {
    readonly string: number;
    readonly hui: number;
    readonly pitch: string;
    readonly uses: number;
  }[];
}

/** A number of the summary with its plain words. */
export interface KeyFigure {
  readonly value: Said;
  readonly label: Said;
}

/** All that a page says about one score. */
export interface Report {
  readonly json: CheckJson;
  /** the melody, for engraving; ids equal those of `json.fingering.notes` */
  readonly score: Score;
  /** all rules, in the order of the book */
  readonly rules: readonly RuleText[];
  /** the tuning's title, characters, change from standard, and a note where sources disagree */
  readonly tuning: {
    readonly title: string;
    readonly characters: string;
    readonly simplified: string;
    readonly change: Said;
    readonly note: Said | null;
  };
  /** such as "a fifth lower"; "as written" */
  readonly transposition: Said;
  /** the few numbers behind the verdict, in the order they are to be read */
  readonly figures: readonly KeyFigure[];
  /** which line of the score was read, why, and what takes the others; nothing where there was nothing to choose */
  readonly line: readonly Said[];
  /** assumptions made, one sentence each */
  readonly assumptions: readonly Said[];
  readonly table: PositionTable;
  /** both hands moment by moment, and the bill bar by bar */
  readonly pictures: Pictures;
  /** the line as it is to sound */
  readonly sounding: SoundLine;
  /** bill summed by rule, dearest first */
  readonly costByRule: readonly {
    readonly rule: string;
    readonly title: Said;
    readonly places: number;
    readonly blocked: number;
    readonly effort: number;
  }[];
  /** plain reading of effort per note: "lies well" ... */
  readonly reading: Said;
  /** by finding: the notes of its remedy's nearest changes as they are then played, chord after chord */
  readonly instead: ReadonlyMap<string, readonly PlacedNote[]>;
  /** the lines of the study, for engraving */
  readonly studyMusic: readonly { readonly score: Score; readonly notes: readonly NoteJson[] }[];
  /** the proof that nothing costs less; null where it was not asked for */
  readonly certificate: CertificateJson | null;
}
