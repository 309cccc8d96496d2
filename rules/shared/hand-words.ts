// SPDX-License-Identifier: AGPL-3.0-or-later
// The hand that a limit holds for, as messages name it.
import { type Phrase, phrase } from "../../src/words.js";

/** The hands of rules/hands. */
const IN_CHINESE: Readonly<Record<string, string>> = {
  small: "偏小的手",
  medium: "中等大小的手",
  large: "偏大的手",
  beginner: "初学者的手",
  experienced: "熟练者的手",
};

/** "This holds for the medium hand", without the full stop. @param name of a known hand, or of a writer's own */
export function forHand(name: string): Phrase {
  const zh = Object.hasOwn(IN_CHINESE, name) ? IN_CHINESE[name] : `“${name}”这只手`;
  return phrase(`This holds for the ${name} hand`, `以上以${zh}为准`);
}
