// SPDX-License-Identifier: AGPL-3.0-or-later
// What the name of a part says of its task. The words are common practice in printed scores, no source.

/** What a part's name, abbreviation and instruments say. */
export interface NamedFor {
  /** it is called a voice, a solo, the melody */
  readonly melody: boolean;
  /** it is for an instrument that mostly plays melodies */
  readonly melodyInstrument: boolean;
  /** it is called an accompaniment, a bass, chords */
  readonly accompaniment: boolean;
  /** it is for an instrument that mostly plays chords */
  readonly chordInstrument: boolean;
  readonly guqin: boolean;
}

/** A text without case, accents and the widths of characters, blanks single: two names that look alike are alike. */
export function folded(text: string): string {
  const plain = text.normalize("NFKD").replace(/\p{M}+/gu, "");
  return plain.toLowerCase().replace(/ß/g, "ss").replace(/ł/g, "l").replace(/ø/g, "o").replace(/\s+/g, " ").trim();
}

/** Words of alphabets, folded; a number behind them does not matter. */
const MELODY_WORDS = new Set(
  (
    "voice vocal vocals vox solo soloist melody lead singer song tune air soprano treble cantus superius " +
    "gesang singstimme stimme melodie sopran lied canto cantor voce melodia voix chant dessus voz cantante " +
    "zang zangstem stem sang sanger rost spiew glos hlas zpev enek laulu голос мелодия вокал сопрано"
  ).split(" "),
);
const MELODY_SIGNS = /旋律|主旋|歌|唱|声乐|聲樂|人声|人聲|女高|メロディ|ボーカル|ソプラノ|멜로디|보컬|노래|소프라노/u;
const INSTRUMENT_WORDS = new Set(
  (
    "violin violino violine violon geige fiddle flute flauto flote querflote traverso piccolo recorder blockflote " +
    "oboe hautbois clarinet clarinette klarinette clarinetto trumpet trompete trompette saxophone sax shakuhachi " +
    "erhu dizi xiao huqin gaohu banhu suona sheng whistle скрипка флейта"
  ).split(" "),
);
const INSTRUMENT_SIGNS =
  /小提琴|长笛|長笛|二胡|高胡|板胡|竹笛|曲笛|梆笛|箫|簫|唢呐|嗩吶|双簧管|雙簧管|单簧管|單簧管|ヴァイオリン|フルート|尺八/u;
const ACCOMPANIMENT_WORDS = new Set(
  (
    "accompaniment accomp acc comp backing background harmony chord chords pad rhythm bass basso contrabass kontrabass " +
    "double-bass tuba timpani pauken drum drums drumset percussion perc schlagzeug " +
    "batterie batteria continuo begleitung begleit accompagnement accompagnamento accompagnato left links gauche " +
    "sinistra pedal click metronome аккомпанемент бас"
  ).split(" "),
);
const ACCOMPANIMENT_SIGNS = /伴奏|低音|和弦|和声|和聲|鼓|打击|打擊|ベース|ドラム|반주|베이스/u;
const CHORD_WORDS = new Set(
  (
    "piano pianoforte klavier flugel keyboard keys synth synthesizer organ orgel orgue organo harp harfe harpe arpa " +
    "harpsichord cembalo clavecin guitar gitarre guitare chitarra guitarra ukulele banjo accordion akkordeon " +
    "accordeon celesta фортепиано гитара"
  ).split(" "),
);
const CHORD_SIGNS = /钢琴|鋼琴|吉他|风琴|風琴|竖琴|豎琴|ピアノ|ギター|피아노|기타/u;
/** The characters of the guqin's names; 琴 alone stands at the end of many others. */
const GUQIN_SIGNS = /古琴|七弦琴|七絃琴|瑤琴|瑶琴|고금/u;
/** Folded names that are the guqin's; `qin` ends the names of other instruments, so it must begin the name. */
const GUQIN_NAME = /(^|[^\p{L}])gu[ -]?qin([^\p{L}]|$)|^qin([^\p{L}]|$)|^琴 ?\d*$/u;

/**
 * What a part is named for.
 *
 * @param names its name, abbreviation and the names or standard sounds of its instruments
 * @example namedFor(["Singstimme"]).melody // true
 */
export function namedFor(names: readonly string[]): NamedFor {
  const texts = names.map(folded);
  const words = texts.flatMap((text) => text.split(/[^\p{L}-]+/u));
  const says = (known: ReadonlySet<string>, signs: RegExp): boolean =>
    words.some((word) => known.has(word)) || names.some((name) => signs.test(name));
  return {
    melody: says(MELODY_WORDS, MELODY_SIGNS),
    melodyInstrument: says(INSTRUMENT_WORDS, INSTRUMENT_SIGNS),
    accompaniment: says(ACCOMPANIMENT_WORDS, ACCOMPANIMENT_SIGNS),
    chordInstrument: says(CHORD_WORDS, CHORD_SIGNS),
    guqin: texts.some((text) => GUQIN_NAME.test(text)) || names.some((name) => GUQIN_SIGNS.test(name)),
  };
}
