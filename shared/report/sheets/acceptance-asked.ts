/** What is asked of a hop beside what its design promises, a row a figure: who signs sees what is signed for. */
import type { Hop } from "../../design/design.js";
import type { Objective } from "../../design/objective.js";
import type { ObjectiveResult, Verdict } from "../../evaluate/account/outage-result.js";
import type { ClearanceResult } from "../../evaluate/account/path-result.js";
import type { HopResult } from "../../evaluate/account/result.js";
import { askedMode, capacityVerdict } from "../../evaluate/level/judged-mode.js";
import { availabilityBounded, outageBounded, yearlyBounded } from "../../format/bounds.js";
import {
  apart,
  bitRate,
  dbm,
  decibels,
  fresnelAsked,
  kFactor,
  kilometres,
  outage,
  availability as percent,
} from "../../format/numbers.js";
import { carriers } from "../../radio/arrangements.js";
import {
  type JudgedDirection,
  judgedDirections,
  levelVerdict,
  marginVerdict,
} from "../../rules/judged-modes.js";
import { clearanceAgainst } from "../clearance-against.js";
import { askedOf } from "./hop-facts.js";
import type { SheetWords } from "./words/sheet-words.js";

export interface AskedRow {
  readonly what: string;
  /** Site, mode, ray: what it is the figure of. */
  readonly where?: string;
  /** Rule of the criterion; undefined: nobody asks, it is told. */
  readonly rule?: string;
  readonly asked?: string;
  /** Undefined: not computed. */
  readonly promised?: string;
  readonly verdict?: Verdict;
}

interface Told {
  readonly hop: Hop;
  readonly result: HopResult;
  readonly words: SheetWords;
}

/**
 * Each criterion of the objective has at least one row, and its rows say together what the criterion says: one that no
 * figure speaks for stands by itself. What is not asked is told without a verdict.
 */
export function askedRows({ hop, result, words }: Told): readonly AskedRow[] {
  const criteria = askedOf(hop, result);
  const told: Told = { hop, result, words };
  const asked = new Set(criteria.map(({ rule }) => rule));
  const rows = [
    clearanceRows,
    rayRows,
    levelRows,
    capacityRows,
    marginRows,
    standbyRows,
    availabilityRows,
    linkRows,
    degradationRows,
  ].flatMap((rowsOf) => rowsOf(told));
  const judged = rows.flatMap((row): AskedRow[] => {
    if (row.rule === undefined || asked.has(row.rule)) return [row];
    const { what, where, promised } = row;
    return promised === undefined ? [] : [{ what, ...(where && { where }), promised }];
  });
  const alone = criteria.flatMap(({ rule, name, verdict }): AskedRow[] => {
    const found = judged.flatMap((row) => (row.rule === rule && row.verdict ? [row.verdict] : []));
    if (worstOf(found) === verdict) return [];
    const what = capital(words.acceptance.criteria[rule] ?? name);
    return [{ what, rule, asked: askedText(rule, hop.objective!, words), verdict }];
  });
  return [...judged, ...alone];
}

function worstOf(verdicts: readonly Verdict[]): Verdict | undefined {
  return (["missed", "open", "met"] as const).find((one) => verdicts.includes(one));
}

/** What the objective states, where a single figure says it. */
function askedText(rule: string, objective: Objective, { figure }: SheetWords): string | undefined {
  const { availabilityPercent, capacityBps, fadeMarginDb, standbyMarginDb, clearance } = objective;
  switch (rule) {
    case "availability":
      return availabilityPercent === undefined ? undefined : figure(percent(availabilityPercent));
    case "capacity":
      return capacityBps === undefined ? undefined : figure(bitRate(capacityBps));
    case "fade-margin":
      return fadeMarginDb === undefined ? undefined : figure(decibels(fadeMarginDb));
    case "standby-margin":
      return standbyMarginDb === undefined ? undefined : figure(decibels(standbyMarginDb));
    case "clearance":
      return figure(
        clearance
          .map(({ fresnelFraction, kFactor: k }) => `${fresnelAsked(fresnelFraction)}, ${kFactor(k)}`)
          .join("; "),
      );
    default:
      return undefined;
  }
}

function clearanceRows({ hop, result: { clearance }, words }: Told): AskedRow[] {
  return clearance.map((one) => clearanceRow("clearance", hop, one, words));
}

function rayRows({ hop, result: { furtherPaths = [] }, words }: Told): AskedRow[] {
  return furtherPaths.flatMap(({ of, antennas, clearance }) => {
    const rule = of === "diversity" ? "diversity-clearance" : "second-antenna-clearance";
    const [one, other] = hop.ends.map(({ site }, at) => `${site.name} ${antennas[at as 0 | 1]}`);
    const ray = words.acceptance.ray(one!, other!);
    return clearance.map((found) => clearanceRow(rule, hop, found, words, ray));
  });
}

function clearanceRow(
  rule: string,
  hop: Hop,
  found: ClearanceResult,
  { acceptance, figure }: SheetWords,
  ray?: string,
): AskedRow {
  const { kFactor: k, requiredFraction, distanceM, verdict, forInformation } = found;
  const where = [ray, figure(kFactor(k))].filter((part) => part !== undefined);
  const place = acceptance.placeAt(figure(kilometres(distanceM)), hop.ends[0].site.name);
  return {
    what: capital(acceptance.criteria[rule]!),
    where: where.join(", "),
    promised: `${figure(clearanceAgainst(found))}, ${place}`,
    ...(!forInformation && { rule, asked: figure(fresnelAsked(requiredFraction)), verdict }),
  };
}

/** Asked of every hop and told where it is missed alone: a margin says it otherwise. */
function levelRows({ hop, result, words: { acceptance, figure } }: Told): AskedRow[] {
  const rule = "level-below-threshold";
  return judgedDirections(hop, result).flatMap((one): AskedRow[] => {
    const verdict = levelVerdict(one);
    if (verdict === "met") return [];
    const { receivedLevelDbm, fadeMarginDb } = one.mode;
    const [promised, asked] = apart(dbm, receivedLevelDbm, receivedLevelDbm - fadeMarginDb);
    const told = inDirection(acceptance.criteria[rule]!, one);
    return [{ ...told, rule, asked: figure(asked), promised: figure(promised), verdict }];
  });
}

function capacityRows({ hop, result, words: { acceptance, figure } }: Told): AskedRow[] {
  const rates = judgedDirections(hop, result).flatMap(({ mode }) => mode.bitRateBps ?? []);
  const mode = judgedDirections(hop, result)[0]?.mode ?? askedMode(hop);
  const rate = rates.length > 0 ? Math.min(...rates) : mode?.bitRateBps;
  if (mode === undefined || rate === undefined) return [];
  const told = { what: acceptance.rate, where: mode.modulation };
  const promisedBps = rate * carriers(hop.arrangement.name);
  const askedBps = hop.objective?.capacityBps;
  if (askedBps === undefined) return [{ ...told, promised: figure(bitRate(promisedBps)) }];
  const [promised, asked] = apart(bitRate, promisedBps, askedBps);
  return [
    {
      ...told,
      rule: "capacity",
      asked: figure(asked),
      promised: figure(promised),
      verdict: capacityVerdict(hop),
    },
  ];
}

function marginRows({ hop, result, words: { acceptance, figure } }: Told): AskedRow[] {
  const rule = "fade-margin";
  const askedDb = hop.objective?.fadeMarginDb;
  return judgedDirections(hop, result).map((one): AskedRow => {
    const told = inDirection(acceptance.criteria[rule]!, one);
    const { fadeMarginDb } = one.mode;
    if (askedDb === undefined) return { ...told, promised: figure(decibels(fadeMarginDb)) };
    const [promised, asked] = apart(decibels, fadeMarginDb, askedDb);
    const verdict = marginVerdict(hop, result, one);
    return { ...told, rule, asked: figure(asked), promised: figure(promised), ...(verdict && { verdict }) };
  });
}

/** Its weakest state. */
function standbyRows({ result: { standby }, words: { acceptance, figure } }: Told): AskedRow[] {
  if (standby?.weakest === undefined) return [];
  const { askedDb, verdict, weakest } = standby;
  const rule = askedDb === undefined ? "standby-level" : "standby-margin";
  const { to, state, modulation, receivedLevelDbm, fadeMarginDb } = weakest;
  const what = capital(acceptance.criteria[rule]!);
  const where = `${to}, ${modulation}, ${acceptance.states[state]}`;
  const [promised, asked] =
    askedDb === undefined
      ? apart(dbm, receivedLevelDbm, receivedLevelDbm - fadeMarginDb)
      : apart(decibels, fadeMarginDb, askedDb);
  return [{ what, where, rule, asked: figure(asked), promised: figure(promised), verdict }];
}

/** Propagation is judged; what takes how long is told behind it. */
function availabilityRows({ result: { availability: found }, words }: Told): AskedRow[] {
  if (found === undefined) return [];
  const { acceptance, figure } = words;
  const { objectivePercent, modulation, verdict, equipment } = found;
  const available = {
    what: acceptance.availability,
    where: acceptance.bothWays(modulation),
    promised: estimated(availabilityBounded(found, objectivePercent), words),
  };
  const time = (share: Parameters<typeof yearlyBounded>[0]) => lasting(yearlyBounded(share), words);
  const { rainPercent, rainBound, rainAtMostPercent, multipathPercent } = found;
  const { totalPercent, totalAtLeastPercent, bound } = found;
  return [
    objectivePercent === undefined
      ? available
      : { ...available, rule: "availability", asked: figure(percent(objectivePercent)), verdict },
    {
      what: acceptance.outBy.rain,
      // Nothing is known that exactly: an estimate of nothing is one of next to nothing.
      promised: time({
        timePercent: rainAtMostPercent === undefined ? rainPercent : Math.max(rainPercent, Number.MIN_VALUE),
        bound: rainBound,
        atMostPercent: rainAtMostPercent,
      }),
    },
    { what: acceptance.outBy.multipath, promised: time({ timePercent: multipathPercent }) },
    ...(equipment === undefined
      ? []
      : [
          {
            what: acceptance.outBy.equipment,
            promised: time({ timePercent: equipment.unavailabilityPercent }),
          },
        ]),
    ...(totalPercent === undefined
      ? []
      : [
          {
            what: acceptance.withEquipment,
            promised: estimated(
              availabilityBounded({
                availabilityPercent: totalPercent,
                bound,
                atLeastPercent: totalAtLeastPercent,
              }),
              words,
            ),
          },
        ]),
  ];
}

function linkRows({ result: { objectives = [] }, words }: Told): AskedRow[] {
  return objectives.map((one: ObjectiveResult): AskedRow => {
    const { method, allowedPercent, foundPercent, bound, atMostPercent, verdict } = one;
    const share = { timePercent: foundPercent, bound, atMostPercent };
    return {
      what: words.acceptance.links[method],
      rule: method,
      asked: words.figure(`≤ ${outage(allowedPercent)}`),
      promised: estimated(outageBounded(share, allowedPercent), words),
      verdict,
    };
  });
}

/** By what interference takes from the margins above. */
function degradationRows({ hop, result, words: { acceptance, figure } }: Told): AskedRow[] {
  return judgedDirections(hop, result).flatMap((one): AskedRow[] => {
    const { degradationDb = 0 } = one.mode;
    if (!(degradationDb > 0)) return [];
    return [{ ...inDirection(acceptance.degradation, one), promised: figure(decibels(degradationDb, 1)) }];
  });
}

function inDirection(
  what: string,
  { direction, mode }: JudgedDirection,
): { readonly what: string; readonly where: string } {
  return { what: capital(what), where: `${direction.to}, ${mode.modulation}` };
}

function estimated(text: string, { acceptance, figure }: SheetWords): string {
  return figure(text.replace("est.", () => acceptance.estimated));
}

/** `26 min a year` in the words of the language. */
function lasting(text: string, { acceptance, figure }: SheetWords): string {
  return figure(acceptance.time(text));
}

function capital(text: string): string {
  return `${text.slice(0, 1).toUpperCase()}${text.slice(1)}`;
}
