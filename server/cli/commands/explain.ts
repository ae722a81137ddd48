import { nearest } from "../../../shared/format/nearest.js";
import { explainHop } from "../../../shared/report/explain.js";
import { type AskedPlan, explainPlans } from "../../../shared/report/explain-plan.js";
import { planNames, plansNamed } from "../../../shared/spectrum/channel-plan.js";
import type { ChannelPlan } from "../../../shared/spectrum/channel-plans.data.js";
import { findUnit } from "../../../shared/units/units.js";
import { CommandError } from "../../command-error.js";
import { designFolder } from "../../findings/judged-folder.js";
import { knownRules } from "../../findings/known-rules.js";
import { findHop } from "../../findings/one-hop.js";
import { loadProject } from "../../session/load.js";
import { explanationText, ruleList, ruleText } from "../print/explanation.js";
import { planText } from "../print/plan.js";
import { paintStdout, print } from "../streams.js";

/**
 * A rule, or a channel plan as a hop names it (`F.595`, `F.595 / 55 MHz`, `F.595 / 55 MHz / 4`); all rules when
 * nothing is named.
 * @param folder designs whose own plans count too
 */
export async function explainSubject(subject: string, folder?: string): Promise<void> {
  const rules = knownRules();
  if (subject === "") return print(ruleList([...rules.values()], paintStdout));
  const rule = rules.get(subject);
  if (rule) return print(ruleText(rule, paintStdout));
  const own = folder === undefined ? [] : ownPlans(folder);
  const asked = askedPlan(subject);
  if (!asked || plansNamed(asked.plan, own).length === 0) {
    const name = asked?.plan ?? subject;
    const near = nearest(name, [...rules.keys(), ...planWords(own)]);
    const remedy = near === undefined ? "hopwright explain lists the rules" : `did you mean ${near}?`;
    throw new CommandError(`${name}: there is no such rule or channel plan; ${remedy}`);
  }
  const plans = explainPlans(asked, own);
  if ("what" in plans) throw new CommandError(`${plans.message}${choices(plans)}`);
  await print(planText(plans, paintStdout));
}

export async function explainHopFigures(name: string, folder: string, today: string): Promise<void> {
  const { hop, result } = await findHop(folder, name, today);
  await print(explanationText(explainHop(hop, result), paintStdout));
}

/** As a hop writes its channel: `PLAN`, `PLAN / WIDTH` or `PLAN / WIDTH / NUMBER`, blanks as may be. */
const CHANNEL = /^([^/\s]+)(?:\s*\/\s*(\d+(?:\.\d+)?)\s*([A-Za-z]+)(?:\s*\/\s*(\d{1,4}))?)?$/;

function askedPlan(subject: string): AskedPlan | undefined {
  const [, plan, width, unit, channel] = CHANNEL.exec(subject) ?? [];
  if (plan === undefined) return undefined;
  if (width === undefined) return { plan };
  const found = findUnit(unit!, "frequency");
  if (found?.dimension !== "frequency") throw new CommandError(`${width} ${unit}: a channel width is in MHz`);
  return {
    plan,
    widthHz: found.unit.toBase(Number(width)),
    ...(channel !== undefined && { channel: Number(channel) }),
  };
}

function ownPlans(folder: string): readonly ChannelPlan[] {
  const { project } = loadProject(designFolder(folder));
  return [...project.designs()].flatMap((model) => model.lookup.plans());
}

/** Whole names and the starts that stand for them. */
function planWords(own: readonly ChannelPlan[]): ReadonlySet<string> {
  return new Set(planNames(own).flatMap((id) => [id, id.split("-")[0]!]));
}

function choices({ what, choices: there }: { what: string; choices: readonly string[] }): string {
  return what === "width" ? `; there are ${there.join(", ")}` : "";
}
