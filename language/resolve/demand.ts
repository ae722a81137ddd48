/** A demand, and what sites and the network say of traffic: from facts to the plain data of the design. */
import type { Demand, RoutePoint, TrafficAtSite, TrafficTerms } from "../../shared/design/demand.js";
import { bitRate } from "../../shared/format/numbers.js";
import { over } from "../../shared/units/as-written.js";
import { HOURS_A_YEAR } from "../../shared/units/year.js";
import {
  type Argument,
  argument,
  type Fact,
  factNamed,
  quantityOf,
  type TextProblem,
  wordOf,
} from "../facts/fact.js";
import { stateOf } from "../facts/states.js";
import { type Declaration, nameRange } from "../model/source-file.js";
import { fieldsOf, type Names } from "./fields.js";
import { merge } from "./inherit.js";
import type { Lookup, ResolveProblem } from "./lookup.js";
import { acceptancesOf } from "./policy.js";
import { named, unlessEmpty } from "./stated.js";

export interface ResolvedDemand {
  readonly demand: Demand;
  readonly problems: readonly ResolveProblem[];
  /** Where its statement started when it was resolved. */
  readonly from: number;
}

type Declared = Pick<Lookup, "isDeclared">;

/** A fact that is wrong is left out, and told; the rest of the demand stands. */
export function resolveDemand(
  entry: Declaration,
  lookup: Names & Declared & Pick<Lookup, "defaults">,
): ResolvedDemand {
  const problems: ResolveProblem[] = [];
  const report = (problem: TextProblem) => problems.push({ file: entry.file, problem });
  const facts = merge(entry.fact.facts, lookup.defaults("demand"));
  const stated = fieldsOf("demand", facts, lookup);
  const demand: Demand = {
    ...named(entry),
    state: stateOf(entry.fact),
    ...stated,
    ...endsOf(entry, lookup, report),
    ...growthOf(factNamed(facts, "growth")),
    via: pointsOf(factNamed(facts, "route"), lookup),
    secondRoute: secondRouteOf(factNamed(facts, "second-route"), lookup),
    accepts: acceptancesOf(entry.fact.facts),
  };
  const { peakBps } = checkFigures(entry.fact.facts, demand, report);
  return { demand: { ...demand, peakBps }, problems, from: entry.fact.statement.start };
}

function endsOf(
  entry: Declaration,
  lookup: Declared,
  report: (problem: TextProblem) => void,
): Pick<Demand, "from" | "to"> {
  const fact = factNamed(entry.fact.facts, "from");
  if (fact === undefined) {
    report({
      rule: "demand-ends",
      severity: "info",
      ...rangeOf(nameRange(entry)),
      message: `${entry.name} does not say from where to where`,
      help: "write from SITE to SITE, or from SITE to handover",
    });
    return {};
  }
  const end = argument(fact, "to");
  const from = siteOf(wordOf(fact, "from"), lookup);
  if (end?.value?.type === "word") {
    if (lookup.isDeclared("site handover"))
      report({
        rule: "ambiguous-name",
        severity: "error",
        ...rangeOf(end),
        message:
          "a site is called handover too; here the word means the first site that the route reaches with a handover",
        help: "give the site another name",
      });
    return { from, to: "handover" };
  }
  const to = siteOf(wordOf(fact, "to"), lookup);
  if (end && to !== undefined && to === from) {
    report({
      rule: "demand-ends",
      severity: "error",
      ...rangeOf(end),
      message: `${entry.name} begins and ends at ${to}; a demand joins two sites`,
      help: "name the other site here",
    });
    return { from };
  }
  return { from, to: to === undefined ? undefined : { site: to } };
}

function siteOf(name: string | undefined, { isDeclared }: Declared): string | undefined {
  return name !== undefined && isDeclared(`site ${name}`) ? name : undefined;
}

/** A day more is a year begun; less is rounding of what was converted. */
const ROUNDING_YEARS = 1e-6;

/** Half of it says nothing: how much without how long, or how long without how much. */
function growthOf(fact: Fact | undefined): Pick<Demand, "growthPercent" | "growthYears"> {
  const growthPercent = quantityOf(fact, "rate");
  const hours = quantityOf(fact, "horizon");
  if (growthPercent === undefined || hours === undefined) return {};
  return { growthPercent, growthYears: Math.ceil(over(hours, HOURS_A_YEAR) - ROUNDING_YEARS) };
}

/** Names that nothing bears, or both a site and a hop, are left out. @returns undefined where none is left */
function pointsOf(fact: Fact | undefined, { isDeclared }: Declared): readonly RoutePoint[] | undefined {
  const points = (fact?.args ?? []).flatMap(({ spec, value }): RoutePoint[] => {
    if (spec.name !== "via" || value?.type !== "reference") return [];
    const { name } = value;
    const [site, hop] = [isDeclared(`site ${name}`), isDeclared(`hop ${name}`)];
    if (site === hop) return [];
    return [site ? { site: name } : { hop: name }];
  });
  return points.length > 0 ? points : undefined;
}

function secondRouteOf(fact: Fact | undefined, lookup: Declared): Demand["secondRoute"] {
  const disjoint = wordOf(fact, "disjoint");
  if (disjoint !== "hop" && disjoint !== "site" && disjoint !== "structure") return undefined;
  const via = pointsOf(fact, lookup);
  return via === undefined ? { disjoint } : { disjoint, via };
}

/** Figures of the demand itself that contradict one another. @returns the peak that counts */
function checkFigures(
  own: readonly Fact[],
  demand: Demand,
  report: (problem: TextProblem) => void,
): Pick<Demand, "peakBps"> {
  const { committedBps, peakBps, availabilityPercent, availabilityWithEquipmentPercent } = demand;
  const tell = (
    name: string,
    severity: "error" | "warning",
    message: string,
    more: Pick<TextProblem, "help" | "fixes"> = {},
  ) => {
    const arg = factNamed(own, name)?.args[0];
    if (arg) report({ rule: "demand-figures", severity, ...rangeOf(arg), message, ...more });
  };
  const isPeakBelow = peakBps !== undefined && committedBps !== undefined && peakBps < committedBps;
  if (isPeakBelow)
    tell(
      "peak",
      "error",
      `a peak of ${bitRate(peakBps)} is below what is committed, ${bitRate(committedBps)}; it does not count`,
      { help: "write a peak above what is committed, or none" },
    );
  if (
    availabilityPercent !== undefined &&
    availabilityWithEquipmentPercent !== undefined &&
    availabilityWithEquipmentPercent > availabilityPercent
  )
    tell(
      factNamed(own, "availability-with-equipment") ? "availability-with-equipment" : "availability",
      "warning",
      `${availabilityWithEquipmentPercent} % with failures of equipment is more than ${availabilityPercent} % without: the second asks nothing then`,
      { help: "write the lower figure for availability-with-equipment" },
    );
  if (demand.e1 === undefined && demand.stm1 === undefined)
    tell("tdm-packet", "warning", "tdm-packet says how E1 and STM-1 cross; the demand has neither", {
      help: "state E1 or STM-1, or remove the line",
    });
  return { peakBps: isPeakBelow ? undefined : peakBps };
}

function rangeOf({ start, end }: Pick<Argument, "start" | "end">) {
  return { start, end };
}

/** @returns undefined when nothing is stated */
export function trafficOf(facts: readonly Fact[], names: Names): TrafficTerms | undefined {
  return unlessEmpty(fieldsOf("traffic", facts, names));
}

/** @returns undefined where the site is nothing to demands */
export function trafficAtSiteOf(facts: readonly Fact[]): TrafficAtSite | undefined {
  return unlessEmpty({
    handover: factNamed(facts, "handover") && (true as const),
    clockSource: factNamed(facts, "clock-source") && (true as const),
  });
}
