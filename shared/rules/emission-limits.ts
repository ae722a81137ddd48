import { address } from "../design/address.js";
import { type Change, changeWords } from "../design/change.js";
import type { Hop, HopEnd } from "../design/design.js";
import type { CarrierEnd } from "../evaluate/account/carrier-result.js";
import type { HopResult } from "../evaluate/account/result.js";
import { transmitPowerDbm } from "../evaluate/level/levels.js";
import { apart, dbm, decibels, trimmed } from "../format/numbers.js";
import type { Direction } from "../geodesy/off-axis.js";
import { orbitAngleDeg } from "../geodesy/orbit.js";
import { antennaGain } from "../radio/antenna-gain.js";
import { type Article21Limits, article21Limits, eirpNearOrbitDbw } from "../spectrum/article21.js";
import { listed } from "../words/lists.js";
import { exampleHop } from "./example-preamble.js";
import { proposedChanges } from "./fixes/proposed.js";
import type { HopContext, HopRule, Report } from "./rule.js";

export const emissionLimits: HopRule = {
  scope: "hop",
  id: "emission-limits",
  severity: "warning",
  title: "EIRP and power stay within the Radio Regulations, and what the design allows",
  checks:
    "The greatest EIRP of each carrier against +55 dBW and against `most-eirp`, its power into the antenna against +13 dBW below 10 GHz and +10 dBW above, and the angle between beam and geostationary orbit where the EIRP asks for one: with what the air may bend of it on the bad side.",
  why: "A licence is not given for more, whatever the link needs; and satellites on the orbit hear what passes near them.",
  fix: "Lower the power of the mode that has most, take a smaller antenna, or turn the path off the orbit.",
  source: "Radio Regulations Article 21 (21.2 to 21.5), from memory and not checked against it",
  needs: ["distance"],
  fixes: proposedChanges,
  good: exampleHop({ more: "most-eirp 60 dBm" }),
  bad: exampleHop({ more: "most-eirp 55 dBm" }),
  check(context) {
    const { hop, result, report } = context;
    // Of several carriers of an end the one with most: of all of them the limits are the same.
    for (const [index, end] of hop.ends.entries()) {
      const carriers = result.carriers.flatMap(({ ends, widthHz }) => ({ end: ends[index]!, widthHz }));
      const told = new Set<string>();
      const faults = carriers.flatMap((one) => faultsOf(hop, end, one, result));
      for (const fault of faults) {
        if (told.has(fault.limit)) continue;
        told.add(fault.limit);
        const { limit, severity, message } = fault;
        const overDb = Math.max(...faults.filter((one) => one.limit === limit).map((one) => one.overDb ?? 0));
        report({
          at: address("hop", hop.name, end.site.name),
          about: `${hop.name} ${limit}`,
          severity,
          message,
          ...lowerPower(context, end, overDb),
        });
      }
    }
  },
};

/** The power of an end holds in every mode, so that it may be no more than the weakest has. */
function lowerPower(
  { hop, tried }: HopContext,
  end: HopEnd,
  overDb: number,
): Pick<Report, "help" | "changes"> {
  const powers = hop.modes.flatMap((mode) => transmitPowerDbm(end, mode) ?? []);
  if (!(overDb > 0) || powers.length === 0) return {};
  const { name } = end.site;
  const most = Math.floor((Math.max(...powers) - overDb) * 10 + 1e-6) / 10;
  const least = Math.min(...hop.modes.map((mode) => mode.transmitPowerDbm ?? Number.POSITIVE_INFINITY));
  const change: Change = { kind: "power", site: name, powerDbm: Math.min(most, least) };
  const lower = `With ${dbm(most)} or less at ${name} it is met.`;
  const attempt = tried?.attempt(emissionLimits.id, change, address("hop", hop.name, name));
  if (!attempt?.mends) return { help: lower };
  return attempt.brings.length === 0
    ? { help: `${lower} Tried and enough: ${changeWords(change)}.`, changes: [change] }
    : { help: `${lower} But ${changeWords(change)} misses then: ${listed(attempt.brings)}.` };
}

interface Fault {
  /** Which it passes. */
  readonly limit: string;
  readonly severity: "error" | "warning" | "info";
  readonly message: string;
  /** By how much the power is too great; undefined: less power is not the only way. */
  readonly overDb?: number;
}

interface Sent {
  readonly end: CarrierEnd;
  readonly widthHz?: number;
}

function faultsOf(hop: Hop, end: HopEnd, { end: sent, widthHz }: Sent, result: HopResult): Fault[] {
  const frequencyHz = sent.transmitHz ?? end.transmitFrequencyHz;
  const { licensedEirpDbm: eirpDbm } = sent;
  if (frequencyHz === undefined || eirpDbm === undefined) return [];
  const { name } = end.site;
  const eirpDbw = eirpDbm - 30;
  const limits = article21Limits(frequencyHz);
  const faults: (Fault | undefined)[] = [
    above(eirpDbw, hop.mostEirpDbm === undefined ? undefined : hop.mostEirpDbm - 30, (is, most) => ({
      limit: "most-eirp",
      severity: "error",
      message: `${name} radiates an EIRP of ${is}, the design allows ${most}`,
    })),
    above(eirpDbw, limits?.eirpDbw, (is, most) => ({
      limit: "21.3",
      severity: "warning",
      message: `${name} radiates an EIRP of ${is}, the Radio Regulations allow ${most} (21.3, from memory)`,
    })),
    limits && powerFault(end, frequencyHz, eirpDbw, limits),
    limits && orbitFault(end, { frequencyHz, eirpDbw, widthHz }, limits, directionAt(result, name)),
  ];
  return faults.filter((fault) => fault !== undefined);
}

function powerFault(
  { site, antenna }: HopEnd,
  frequencyHz: number,
  eirpDbw: number,
  { powerDbw }: Article21Limits,
): Fault | undefined {
  const gainDbi = antenna && antennaGain(antenna, frequencyHz)?.gainDbi;
  if (gainDbi === undefined) return undefined;
  return above(eirpDbw - gainDbi, powerDbw, (is, most) => ({
    limit: "21.5",
    severity: "warning",
    message: `${is} go into the antenna at ${site.name}, the Radio Regulations allow ${most} (21.5, from memory)`,
  }));
}

function orbitFault(
  { site }: HopEnd,
  sent: { readonly frequencyHz: number; readonly eirpDbw: number; readonly widthHz?: number | undefined },
  { orbit }: Article21Limits,
  beam: Direction | undefined,
): Fault | undefined {
  if (orbit === undefined || beam === undefined || site.position === undefined) return undefined;
  const { frequencyHz, eirpDbw, widthHz } = sent;
  const { aboveEirpDbw, inBandwidthHz, leastAngleDeg } = orbit;
  // Spread evenly over the channel; of one whose width is not known all of it counts.
  const share =
    inBandwidthHz !== undefined && widthHz !== undefined ? Math.min(1, inBandwidthHz / widthHz) : 1;
  const countedDbw = eirpDbw + 10 * Math.log10(share);
  if (!(countedDbw > aboveEirpDbw + ROUNDING)) return undefined;
  const angleDeg = orbitAngleDeg(site.position.latitudeDeg, beam);
  if (angleDeg === undefined || angleDeg >= leastAngleDeg) return undefined;
  const nearDbw = eirpNearOrbitDbw(frequencyHz, angleDeg);
  const passes = nearDbw === undefined || eirpDbw > nearDbw + ROUNDING;
  const near =
    nearDbw === undefined ? "" : `, and ${trimmed(nearDbw, 1)} dBW at most where that cannot be kept (21.4)`;
  const [angle, least] = apart((deg, digits = 0) => `${deg.toFixed(1 + digits)}°`, angleDeg, leastAngleDeg);
  return {
    limit: "21.2",
    // Where it cannot be kept the other limit holds; whether it can the design does not say.
    severity: passes ? "warning" : "info",
    message: `the beam at ${site.name} passes the geostationary orbit at ${angle} with ${dbw(countedDbw)}${inBandwidthHz === undefined ? "" : " in 1 MHz"}; above ${trimmed(aboveEirpDbw, 1)} dBW the Radio Regulations ask for ${least} (21.2, from memory)${near}`,
  };
}

/** To a hundredth, as it is written. */
const ROUNDING = 0.005;

function above(
  valueDbw: number,
  mostDbw: number | undefined,
  fault: (is: string, most: string) => Fault,
): Fault | undefined {
  if (mostDbw === undefined || !(valueDbw > mostDbw + ROUNDING)) return undefined;
  const [is, most] = apart(dbw, valueDbw, mostDbw);
  return { ...fault(is, most), overDb: valueDbw - mostDbw };
}

function dbw(value: number, moreDigits = 0): string {
  return `${decibels(value, moreDigits)}W`;
}

function directionAt({ geometry }: HopResult, site: string): Direction | undefined {
  return geometry?.find((one) => one.site === site);
}
