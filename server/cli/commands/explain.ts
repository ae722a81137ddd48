import { nearest } from "../../../shared/format/nearest.js";
import { explainHop } from "../../../shared/report/explain.js";
import { type AskedPlan, explainPlans } from "../../../shared/report/explain-plan.js";
import { explainSite } from "../../../shared/report/explain-site.js";
import type { Explanation } from "../../../shared/report/explanation.js";
import { planNames, plansNamed } from "../../../shared/spectrum/channel-plan.js";
import type { ChannelPlan } from "../../../shared/spectrum/channel-plans.data.js";
import { findUnit } from "../../../shared/units/units.js";
import { CommandError } from "../../command-error.js";
import { designFolder } from "../../findings/judged-folder.js";
import { knownRules } from "../../findings/known-rules.js";
import { findHop } from "../../findings/one-hop.js";
import { findSite } from "../../findings/one-site.js";
import { loadProject } from "../../session/load.js";
import { FORMATS, formatNamed } from "../formats.js";
import type { Explained } from "../print/format.js";
import { noteTime } from "../print/note-time.js";
import { planText } from "../print/plan.js";
import { ruleList, ruleText } from "../print/rule-text.js";
import { paintStdout, print } from "../streams.js";

export interface ExplainOptions {
  readonly hop?: string;
  readonly site?: string;
  readonly arrangement?: string;
  readonly card?: string;
  readonly radio?: string;
  readonly antenna?: string;
  readonly coupler?: string;
  readonly chassis?: string;
  readonly cable?: string;
  readonly feeder?: string;
  readonly dir?: string;
  readonly format: string;
  readonly today: string;
  readonly on?: string;
}

/** What an option names; without one a rule or a plan is explained. */
const SUBJECTS = [
  "hop",
  "site",
  "arrangement",
  "card",
  "radio",
  "antenna",
  "coupler",
  "chassis",
  "cable",
  "feeder",
] as const;

/** @param what words of the command line: a rule or plan, or the folder of the design that an option's name is of */
export async function explain(what: readonly string[], options: ExplainOptions): Promise<void> {
  const { dir, format } = options;
  const [of, second] = SUBJECTS.filter((one) => options[one] !== undefined);
  if (of !== undefined && second !== undefined)
    throw new CommandError(`explain takes --${of} or --${second}, not both`);
  if (of === undefined) {
    if (format !== "text")
      throw new CommandError(
        "explain --format json explains a hop, a site, an arrangement or a part of the catalogue: name it with --hop, --site, --arrangement or --card",
      );
    return explainSubject(what.join(" "), dir);
  }
  const name = options[of]!;
  const [folder = dir ?? ".", surplus] = what;
  if (of === "arrangement") {
    if (what.length > 0)
      throw new CommandError(
        `an arrangement of several words stands between quotes: "${[name, ...what].join(" ")}"`,
      );
    return (await import("./explain-lesson.js")).explainArrangement(name, format);
  }
  if (surplus !== undefined)
    throw new CommandError(`explain --${of} takes one folder; ${surplus} is one too many`);
  if (of === "hop") return explainHopFigures(name, folder, options);
  if (of === "site") return explainSiteFigures(name, folder, options);
  return (await import("./explain-lesson.js")).explainPart(of, name, folder, options);
}

/**
 * A rule, or a channel plan as a hop names it (`F.595`, `F.595 / 55 MHz`, `F.595 / 55 MHz / 4`); all rules when
 * nothing is named.
 * @param folder designs whose own plans count too
 */
async function explainSubject(subject: string, folder?: string): Promise<void> {
  const rules = knownRules();
  if (subject === "") return print(ruleList([...rules.values()], paintStdout));
  const rule = rules.get(subject);
  if (rule) return print(ruleText(rule, paintStdout));
  const own = folder === undefined ? [] : ownPlans(folder);
  const asked = askedPlan(subject);
  if (plansNamed(asked.plan, own).length === 0) {
    const edition = otherEdition(asked.plan, own);
    if (edition !== undefined) throw new CommandError(edition);
    const near = nearest(asked.plan, [...rules.keys(), ...planWords(own)]);
    const remedy = near === undefined ? "hopwright explain lists the rules" : `did you mean ${near}?`;
    throw new CommandError(`${asked.plan}: there is no such rule or channel plan; ${remedy}`);
  }
  const plans = explainPlans(asked, own);
  if ("what" in plans) throw new CommandError(`${plans.message}${choices(plans)}`);
  await print(planText(plans, paintStdout));
}

async function explainHopFigures(
  name: string,
  folder: string,
  { today, on, format }: { readonly today: string; readonly on?: string; readonly format: string },
): Promise<void> {
  const { hop, result, design } = await findHop(folder, name, today, on);
  noteTime(design);
  const interference = design.session.inNetwork(hop.name)?.interference;
  const figures = explainHop(hop, result, design.model.design(), interference);
  await printFigures({ hop: hop.name }, figures, format);
}

async function explainSiteFigures(
  name: string,
  folder: string,
  { today, on, format }: { readonly today: string; readonly on?: string; readonly format: string },
): Promise<void> {
  const model = findSite(folder, name, today, on);
  noteTime({ model });
  const figures = explainSite(name, model.design());
  if (figures === undefined)
    throw new CommandError(`${name}: no hop ends at this site and it states no equipment`);
  await printFigures({ site: name }, figures, format);
}

async function printFigures(
  of: Explained["of"],
  figures: readonly Explanation[],
  format: string,
): Promise<void> {
  await print(await formatNamed(FORMATS.explain, format).print({ of, figures, paint: paintStdout }));
}

/** As a hop writes its channel: `PLAN`, `PLAN / WIDTH` or `PLAN / WIDTH / NUMBER`, blanks as may be. */
function askedPlan(subject: string): AskedPlan {
  const [plan = "", width, channel, ...more] = subject.split("/").map((part) => part.trim());
  if (width === undefined) return { plan };
  const [, digits, symbol = ""] = /^(\d+(?:\.\d+)?)\s*([A-Za-z]*)$/.exec(width) ?? [];
  const isNumber = channel === undefined || /^\d{1,4}$/.test(channel);
  if (digits === undefined || !isNumber || more.length > 0)
    throw new CommandError(`${subject}: a channel is written PLAN / WIDTH / NUMBER, as F.595 / 55 MHz / 4`);
  const found = findUnit(symbol, "frequency");
  if (found?.dimension !== "frequency") throw new CommandError(`${width}: a channel width is in MHz`);
  return {
    plan,
    widthHz: found.unit.toBase(Number(digits)),
    ...(channel !== undefined && { channel: Number(channel) }),
  };
}

function ownPlans(folder: string): readonly ChannelPlan[] {
  const { project } = loadProject(designFolder(folder));
  const plans = [...project.designs()].flatMap((model) => model.lookup.plans());
  // Designs that share a catalogue share its plans.
  return [...new Map(plans.map((plan) => [JSON.stringify(plan), plan])).values()];
}

/** A Recommendation that is known, asked for with the number of an edition: which edition its plans are from. */
function otherEdition(asked: string, own: readonly ChannelPlan[]): string | undefined {
  const [, plan] = /^([A-Za-z]+\.\d+)-\d{1,2}$/.exec(asked) ?? [];
  const plans = plan === undefined ? [] : plansNamed(plan, own);
  if (plans.length === 0) return undefined;
  const documents = [...new Set(plans.flatMap((one) => one.documents))].filter((one) => one.includes(plan!));
  return `${asked}: a plan is named without the edition, hopwright explain ${plan}; its figures are from ${documents.join(" and ")}`;
}

/** Whole names and the starts that stand for them. */
function planWords(own: readonly ChannelPlan[]): ReadonlySet<string> {
  return new Set(planNames(own).flatMap((id) => [id, id.split("-")[0]!]));
}

function choices({ what, choices: there }: { what: string; choices: readonly string[] }): string {
  return what === "width" ? `; there are ${there.join(", ")}` : "";
}
