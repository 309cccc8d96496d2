// SPDX-License-Identifier: AGPL-3.0-or-later
// All words of the listen bar: those that stand in the page, and those that its script puts there.
import { phrase } from "../src/words.js";

/** Words that the script puts into the page; it fills in the names in braces. */
export const SPOKEN_WORDS = {
  play: phrase("Play", "播放"),
  pause: phrase("Pause", "暂停"),
  place: phrase("bar {bar}, beat {beat}", "第{bar}小节第{beat}拍"),
  speed: phrase("{percent} %", "{percent}%"),
  speedAndTempo: phrase("{percent} % · {tempo} quarter notes a minute", "{percent}% · 每分钟{tempo}个四分音符"),
  playing: phrase("Playing from bar {bar}, beat {beat}", "从第{bar}小节第{beat}拍起播放"),
  paused: phrase("Paused at bar {bar}, beat {beat}", "暂停在第{bar}小节第{beat}拍"),
  stopped: phrase("Stopped", "已停止"),
  silent: phrase("This browser plays no sound.", "此浏览器不能发声。"),
} as const;

/** Words that stand in the page. */
export const LISTEN_WORDS = {
  title: phrase("Listen to it", "试听"),
  play: SPOKEN_WORDS.play,
  stop: phrase("Stop", "停止"),
  fromBar: phrase("From this bar", "从本小节起"),
  position: phrase("Position", "位置"),
  speed: phrase("Speed", "速度"),
  loop: phrase("Repeat bars", "循环小节"),
  loopFrom: phrase("from", "从"),
  loopTo: phrase("to", "到"),
  honest: phrase(
    "The sound is computed on the page. Pitches are those of the places, to the cent; colour and decay come from a general model of a plucked string on a wooden box, not from a measured instrument. Sections with repeat signs sound once.",
    "声音由页面自行计算。音高取自各音位，精确到音分；音色与余音按一般的拨弦与木制共鸣箱模型算出，并非某一张琴的实测。反复的段落只奏一遍。",
  ),
} as const;
