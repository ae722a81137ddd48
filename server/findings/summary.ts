import { viewWords } from "../../shared/design/state.js";
import type { HopResult } from "../../shared/evaluate/account/result.js";
import { asksAnything } from "../../shared/rules/asked.js";
import type { JudgedDesign } from "./judged-folder.js";

export interface Counts {
  readonly errors: number;
  readonly warnings: number;
  /** Accepted findings are not among them. */
  readonly infos: number;
  readonly accepted: number;
  readonly hops: number;
  /** Of which an objective asks something, and all of that has a verdict. */
  readonly hopsJudged: number;
  /** Of which nothing is asked. */
  readonly hopsWithoutObjective: number;
  /** Without a level in both directions: too much is missing. */
  readonly hopsNotEvaluated: number;
}

export function countsOf(design: JudgedDesign): Counts {
  const counts = { errors: 0, warnings: 0, infos: 0, accepted: 0 };
  for (const { severity, accepted, alike = 0 } of design.findings) {
    if (accepted) counts.accepted += 1 + alike;
    else if (severity === "error") counts.errors += 1 + alike;
    else if (severity === "warning") counts.warnings += 1 + alike;
    else counts.infos += 1 + alike;
  }
  const names = hopsOf(design);
  const judgedOf = (name: string) => design.session.result(name) ?? design.gone.get(name);
  const evaluated = names.filter((name) => isEvaluated(judgedOf(name)?.result));
  const hops = names.length;
  const asked = names.filter((name) => isAsked(design, name));
  const open = new Set(
    design.findings.flatMap(({ rule, hop }) => (hop && WITHOUT_VERDICT.has(rule) ? hop : [])),
  );
  const judged = asked.filter((name) => !open.has(name) && judgedOf(name) !== undefined);
  return {
    ...counts,
    hops,
    hopsJudged: judged.length,
    hopsWithoutObjective: hops - asked.length,
    hopsNotEvaluated: hops - evaluated.length,
  };
}

/** Rules that tell of a hop that what is asked of it has no verdict. */
const WITHOUT_VERDICT: ReadonlySet<string> = new Set(["not-judged", "path-length"]);

/** Hops that stand at a time that was judged, in the order of the text. */
export function hopsOf({ model, gone, about }: JudgedDesign): readonly string[] {
  return model
    .names("hop")
    .filter((name) => (gone.has(name) || model.standsHop(name)) && (about?.has(name) ?? true))
    .filter((name) => !model.declarations(`hop ${name}`)[0]?.template);
}

function isAsked({ model, gone }: JudgedDesign, name: string): boolean {
  const { hop, unformed } = model.hop(name) ?? { hop: gone.get(name)?.hop };
  const objective = hop?.objective ?? unformed?.objective;
  return objective !== undefined && asksAnything(objective);
}

/** The time that the figures of a design are of, in words; undefined where nothing in it has a state. */
export function shownTime({ model }: Pick<JudgedDesign, "model">): string | undefined {
  return model.spans()[Symbol.iterator]().next().done ? undefined : viewWords(model.view);
}

/** The times that findings are of, in words. */
export function judgedTimes(design: JudgedDesign): string | undefined {
  const { days } = design;
  if (days.length === 1) return shownTime(design);
  const from = days[0] === design.session.today ? "from today on" : "of all times";
  return `on each of ${days.length} days ${from} that change something`;
}

function isEvaluated(result: HopResult | undefined): boolean {
  return result !== undefined && result.directions.length === 2;
}

export function sumOf(all: readonly Counts[]): Counts {
  return {
    errors: sum(all.map((one) => one.errors)),
    warnings: sum(all.map((one) => one.warnings)),
    infos: sum(all.map((one) => one.infos)),
    accepted: sum(all.map((one) => one.accepted)),
    hops: sum(all.map((one) => one.hops)),
    hopsJudged: sum(all.map((one) => one.hopsJudged)),
    hopsWithoutObjective: sum(all.map((one) => one.hopsWithoutObjective)),
    hopsNotEvaluated: sum(all.map((one) => one.hopsNotEvaluated)),
  };
}

export function sum(values: readonly number[]): number {
  return values.reduce((a, b) => a + b, 0);
}
