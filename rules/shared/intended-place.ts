// SPDX-License-Identifier: AGPL-3.0-or-later
// What a written place that sounds another note sounds, and which place or string may have been meant.

import { placeInCharacters, stringInCharacters } from "../../src/model/characters.js";
import type { MomentNote } from "../../src/model/moments.js";
import { pitchName, spell } from "../../src/model/pitch.js";
import { namesPlace, type Place, placesOn, soundingsAt } from "../../src/model/places.js";
import type { Placed } from "../../src/model/playing.js";
import type { Setting } from "../../src/model/setting.js";
import { hasFlats } from "../../src/model/where.js";
import { type Phrase, phrase, phraseOf } from "../../src/words.js";

const STRINGS = [1, 2, 3, 4, 5, 6, 7];

/** The note nearest to what a written place sounds, such as "E3". */
export function soundedNote({ string, sound, exact }: Placed, setting: Setting): string {
  const here = soundingsAt(string, exact, setting).find((sounding) => sounding.sound === sound);
  return here === undefined ? "" : spell(here.semitone, hasFlats(setting));
}

/** Where the wanted note lies on a string, in the sound that was written if it can: "on string 4 F3 is at 7.6". */
export function placeOnString(
  string: number,
  sound: Placed["sound"] | null,
  wanted: MomentNote,
  setting: Setting,
): Phrase {
  const name = pitchName(wanted.sounding);
  const onString = stringInCharacters(string);
  const places = placesOn(string, wanted.semitone, wanted.cents, setting);
  const own = places.filter((place) => place.sound === sound);
  const found = own.length > 0 ? own : places.filter((place) => place.sound !== "harmonic");
  if (found.length > 0)
    return phraseOf({
      en: (say) => `on string ${string} ${name} is ${say(atPlaces(found))}`,
      zh: (say) => `${onString}上${name}在${say(atPlaces(found))}`,
    });
  const open = setting.tuning.semitones[string - 1] as number;
  if (wanted.semitone > open)
    return phrase(`${name} lies above the end of string ${string}`, `${name}高出了${onString}的尽头`);
  const openName = setting.tuning.strings[string - 1];
  return phrase(
    `${name} lies below string ${string}, which is ${openName} when open`,
    `${name}低于${onString}散音${openName}`,
  );
}

function atPlaces(places: readonly Place[]): Phrase {
  const at = places.map((place) => String(place.position)).join(" or ");
  const atZh = places.flatMap(({ position }) => (position === null ? [] : [placeInCharacters(position)])).join("或");
  switch (places[0]?.sound) {
    case "open":
      return phrase("the open string", "散音");
    case "harmonic":
      return phrase(`the harmonic at hui ${at}`, `${atZh}泛音`);
    default:
      return phrase(`at ${at}`, atZh);
  }
}

/** The other strings on which the written place does sound the note: "string 3 sounds it at 9"; null for none. */
export function stringsWithPlace({ sound, exact }: Placed, wanted: MomentNote, setting: Setting): Phrase | null {
  const strings = STRINGS.filter((string) =>
    placesOn(string, wanted.semitone, wanted.cents, setting).some(
      (place) => place.sound === sound && (sound === "open" || namesPlace(exact, place)),
    ),
  );
  if (strings.length === 0) return null;
  const sounding =
    strings.length === 1 ? `string ${strings[0]} sounds it` : `strings ${strings.join(" and ")} sound it`;
  const onStrings = strings.map(stringInCharacters).join("、");
  if (sound === "open") return phrase(`${sounding} when open`, `${onStrings}散音就是这个音`);
  const kind = sound === "harmonic" ? "泛音" : "";
  return phrase(
    `${sounding} ${sound === "harmonic" ? "as the harmonic at hui" : "at"} ${exact}`,
    `${onStrings}的${placeInCharacters(exact)}${kind}才是这个音`,
  );
}
