// SPDX-License-Identifier: AGPL-3.0-or-later
// `huipath fit`.
import { basename } from "node:path";
import { fitSummary } from "../../reports/fit-text.js";
import type { Again } from "../../reports/fit-words.js";
import { findTuning, type Tuning, tuningsWith } from "../model/tuning.js";
import { InputProblem } from "../problem.js";
import { assembleFit } from "../report/assemble-fit.js";
import type { Fit } from "../report/fit.js";
import { rankSettings } from "../search/ranking.js";
import type { Output } from "../write/output.js";
import { readCall, type ScoreCall } from "./input.js";
import { languageOf, numberIn } from "./options.js";
import type { Outcome, Progress } from "./outcome.js";
import { deliver, guardOutputs, jsonText, pagePath } from "./outputs.js";
import { contestOf } from "./settings.js";

/** Options of `fit` as they were typed. */
export interface FitCall extends Omit<ScoreCall, "tuning" | "transpose"> {
  /** names, with commas between */
  readonly tunings?: string;
  readonly keepKey?: boolean;
  readonly octaves?: boolean;
  readonly top?: string;
  readonly report?: string;
  readonly json?: string;
  /** language of the page, the summary and the JSON: `--lang` */
  readonly lang?: string;
  readonly quiet?: boolean;
  readonly force?: boolean;
}

const USUAL_TOP = "10";
/** Progress is told so often. */
const STEPS_TOLD = 10;

/**
 * `huipath fit`: ranks tunings and transpositions, writes. The code is 1 where no setting makes all of it playable.
 *
 * @throws InputProblem before anything is written when the input or the call cannot be used
 */
export async function runFit(call: FitCall, version: string, progress: Progress = () => {}): Promise<Outcome> {
  const language = languageOf(call.lang);
  const page = call.report === "none" ? null : (call.report ?? pagePath(call.score, "fit"));
  guardOutputs({ "--report": page, "--json": call.json }, [call.score, call.brief, call.hand], call.force ?? false);
  const fit = ranked(call, version, progress);
  const outputs: Output[] = [];
  if (page !== null) {
    const { renderFitPage } = await import("../../reports/fit-page.js");
    outputs.push({ path: page, content: await renderFitPage(fit, againOf(call, basename), language) });
  }
  if (call.json !== undefined) outputs.push({ path: call.json, content: jsonText(fit.json, language) });
  const piped = await deliver(outputs);
  const written = { report: page, json: call.json ?? null };
  const summary = call.quiet ? "" : fitSummary(fit, againOf(call), written, language);
  const playable = fit.json.settings[0]?.total.blocked === 0;
  return { code: playable ? 0 : 1, text: piped ?? summary, complaint: "" };
}

function ranked(call: FitCall, version: string, progress: Progress): Fit {
  const top = numberIn(call.top ?? USUAL_TOP, "--top", { from: 1, to: 1000, whole: true });
  const named = call.tunings === undefined ? null : tuningsIn(call.tunings);
  const called = readCall(call, { settles: false });
  const { score } = called;
  const field = {
    tunings: named ?? tuningsWith(called.setting.tuning),
    ...{ keepKey: call.keepKey ?? false, octaves: call.octaves ?? false, top },
  };
  const told = { progress: tellTenths(progress) };
  const ranking = rankSettings({ ...contestOf(called, field), ...told });
  if (ranking.own instanceof InputProblem) throw ranking.own;
  return assembleFit({ ...ranking, own: ranking.own }, { score, ...field, version });
}

/** The tunings of a list, none twice. @throws InputProblem for an unknown one */
function tuningsIn(list: string): readonly Tuning[] {
  const names = list.split(",").map((name) => name.trim());
  const found = names.filter((name) => name !== "").map((name) => findTuning(name, "--tunings"));
  if (found.length === 0)
    throw new InputProblem(
      "no-tunings",
      "--tunings",
      "it names none",
      "say names with commas between, such as zhengdiao,manjue",
    );
  return [...new Map(found.map((tuning) => [tuning.name, tuning])).values()];
}

function tellTenths(progress: Progress): (done: number, all: number) => void {
  let told = 0;
  return (done, all) => {
    const step = Math.floor((STEPS_TOLD * done) / all);
    if (step > told) progress(`${done} of ${all} settings compared`);
    told = step;
  };
}

/** The options that bear on a fingering, to be typed again. @param named how a file is named: as typed, or by its name alone */
function againOf(call: FitCall, named: (path: string) => string = (path) => path): Again {
  const { part, voice, bars, hand, temperament, brief } = call;
  const file = (path: string | undefined): string | undefined => (path === undefined ? undefined : named(path));
  const said = { part, voice, bars, hand: file(hand), temperament, brief: file(brief) };
  const options = Object.entries(said).flatMap(([name, value]) => (value === undefined ? [] : [`--${name}`, value]));
  return { score: named(call.score), options };
}
