// SPDX-License-Identifier: AGPL-3.0-or-later
// What a person reads, in every language at once: a sentence is written in both where it is made, and one of them is
// taken where it is printed.

/** The languages of reports: English, and Chinese in simplified characters. */
export const LANGUAGES = ["en", "zh"] as const;
/** One of {@link LANGUAGES}. */
export type Language = (typeof LANGUAGES)[number];

/** A piece of text in every language. */
export class Phrase implements Readonly<Record<Language, string>> {
  constructor(
    readonly en: string,
    readonly zh: string,
  ) {}

  /** A phrase printed without asking for a language comes out in English. */
  toString(): string {
    return this.en;
  }
}

/** A text in both languages, or one that reads the same in both: a name, a number, what a writer wrote. */
export type Said = Phrase | string;

/** A text in both languages. @example phrase("bar 3", "第3小节") */
export function phrase(en: string, zh: string): Phrase {
  return new Phrase(en, zh);
}

/** A text in one language. */
export function inWords(said: Said, language: Language): string {
  return typeof said === "string" ? said : said[language];
}

/** Whether two texts say the same, in every language. */
export function isSame(a: Said, b: Said): boolean {
  return LANGUAGES.every((language) => inWords(a, language) === inWords(b, language));
}

/**
 * A phrase whose words are built in each language from the same values.
 *
 * @param build makes the text; `say` takes a part of it in the same language
 * @example phraseOf({ en: (say) => `${say(where)}: nothing`, zh: (say) => `${say(where)}：无` })
 */
export function phraseOf(build: Readonly<Record<Language, (say: (said: Said) => string) => string>>): Phrase {
  return phrase(
    build.en((said) => inWords(said, "en")),
    build.zh((said) => inWords(said, "zh")),
  );
}

/** Texts one after the other. @param between what stands between two; nothing where left out */
export function joined(parts: readonly Said[], between: Said = ""): Phrase {
  const join = (language: Language): string =>
    parts.map((part) => inWords(part, language)).join(inWords(between, language));
  return phrase(join("en"), join("zh"));
}

/** A value in which every phrase has become a string of one language. */
export type InLanguage<T> = T extends Phrase
  ? string
  : T extends ((...values: never[]) => unknown) | ReadonlyMap<unknown, unknown>
    ? T
    : T extends object
      ? { readonly [K in keyof T]: InLanguage<T[K]> }
      : T;

/** Takes one language throughout a plain value; what is no plain object or list stays as it is. */
export function inLanguage<T>(value: T, language: Language): InLanguage<T> {
  return translated(value, language) as InLanguage<T>;
}

function translated(value: unknown, language: Language): unknown {
  if (value instanceof Phrase) return value[language];
  if (Array.isArray(value)) return value.map((one) => translated(one, language));
  if (value === null || typeof value !== "object" || Object.getPrototypeOf(value) !== Object.prototype) return value;
  return Object.fromEntries(Object.entries(value).map(([key, one]) => [key, translated(one, language)]));
}

/**
 * Characters that tell a terminal to do something, end a line or turn the direction of writing: controls, separators of
 * lines and paragraphs, what Unicode lists as Bidi_Control; and halves of characters, which are none. XML 1.0 allows
 * controls from U+007F on, U+009B with them, which begins an order to a terminal as ESC [ does.
 */
const UNSEEN = /[\p{Cc}\p{Cs}\p{Bidi_Control}\u2028\u2029]/gu;

/** A line as it may be printed where characters can do something: each of those is a blank. */
export function printable(line: string): string {
  return line.replace(UNSEEN, " ");
}

/** A text from outside on one line, blanks single. */
export function oneLine(text: string): string {
  return printable(text).replace(/\s+/gu, " ").trim();
}

/** JSON that says the same and holds none of those characters itself, since it may be printed too. */
export function printableJson(json: string): string {
  return json.replace(UNSEEN, (found) => `\\u${found.charCodeAt(0).toString(16).padStart(4, "0")}`);
}
