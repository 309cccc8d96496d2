// SPDX-License-Identifier: AGPL-3.0-or-later
// What a page says, and in which script.

/** A Chinese character. */
export const HAN = /\p{Script=Han}/u;

/** What stands outside of every language: commands, options, keys of a brief, pitch names, ids of parts, names of ours. */
const NEUTRAL =
  /huipath check (?=[\w./'-]).*|huipath (?:check|fit)|string-numbers: \w+|--[a-z]+(?:-[a-z]+)*|\b[A-G](?:##|#|bb|b)?-?\d?(?![\w#])|\b(?:huipath|JSON|P\d+)\b|[A-Za-z]:\//g;

/** Latin words of two letters or more that are no pitch, option or name of ours, in lower case. */
export function latinWords(text: string): readonly string[] {
  const words = text.replace(NEUTRAL, " ").match(/[\p{Script=Latin}][\p{Script=Latin}\p{M}]+/gu) ?? [];
  return words.map((word) => word.toLowerCase());
}

/** Elements of which nothing is read as language: style and data, commands, what is marked as not to be translated. */
const UNREAD =
  /<(style|script|code)\b[^>]*>[\s\S]*?<\/\1>|<([a-z0-9]+)\b[^>]*\stranslate="no"[^>]*>(?:(?!<\2\b)[\s\S])*?<\/\2>/g;

const decoded = (text: string): string =>
  text
    .replace(/&lt;/g, "<")
    .replace(/&gt;/g, ">")
    .replace(/&quot;/g, '"')
    .replace(/&#x27;/g, "'")
    .replace(/&#x60;/g, "`")
    .replace(/&#x3D;/g, "=")
    .replace(/&nbsp;/g, " ")
    .replace(/&amp;/g, "&");

const withoutUnread = (page: string): string => page.replace(/<!--[\s\S]*?-->/g, " ").replace(UNREAD, " ");

/** The texts of a page that a person sees. */
export function visibleText(page: string): readonly string[] {
  return withoutUnread(page)
    .split(/<[^>]*>/)
    .map(decoded)
    .filter((text) => text.trim() !== "");
}

/** The texts of its attributes that a person hears or sees. */
export function attributeTexts(page: string): readonly string[] {
  const found = withoutUnread(page).matchAll(
    /\s(?:title|aria-label|aria-description|aria-valuetext|alt|placeholder)="([^"]*)"/g,
  );
  return [...found].map((match) => decoded(match[1] ?? ""));
}

/** Texts and attributes of an English page that stand in no element marked as Chinese. */
export function foreignTexts(page: string): readonly string[] {
  const rest = page.replace(/<([a-z0-9]+)\b[^>]*\slang="zh-[^"]*"[^>]*>(?:(?!<\1\b)[\s\S])*?<\/\1>/g, " ");
  return [...visibleText(rest), ...attributeTexts(rest)];
}
