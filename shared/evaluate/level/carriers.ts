/**
 * The carriers of a hop: what each sends and receives at each end, over the arm and the antenna that its unit has
 * there. Page, explanation, comparison, licence and JSON all tell of carriers from here, so that they can't disagree.
 */
import type { Hop, HopEnd } from "../../design/design.js";
import {
  type Branch,
  type CarrierUnits,
  carrierUnits,
  hasSecondWayOut,
  type PathState,
  sidesOf,
} from "../../equipment/branches.js";
import { branchesAt, type Stand, standsOf } from "../../equipment/stands.js";
import { type UnitSetting, unitsOf } from "../../equipment/units.js";
import { factsAt } from "../../radio/arrangement-pairs.js";
import { type ArrangementFacts, SINGLE } from "../../radio/arrangements.js";
import type { CarrierEnd, CarrierResult, CarrierUnit, LevelByMode } from "../account/carrier-result.js";
import type { DirectionResult } from "../account/level-result.js";
import { judgedMode } from "./judged-mode.js";
import { transmitPowerDbm, type Way } from "./levels.js";

/** A direction with the ways through its branches. */
export interface DirectionWays {
  readonly direction: DirectionResult;
  readonly ways: readonly Way[];
}

/** @param hop as stated, not in the polarization that it is judged in */
export function carriersOf(hop: Hop, directions: readonly DirectionWays[]): readonly CarrierResult[] {
  const ends = [equipped(hop, hop.ends[0]), equipped(hop, hop.ends[1])] as const;
  return ends[0].groups.flatMap((group, carrier): CarrierResult[] => {
    const other = ends[1].groups[carrier];
    if (other === undefined) return [];
    // Called as at an end where nothing waits: `only`, where the other has a main and a standby.
    const called = group.standby !== undefined && other.standby === undefined ? 1 : 0;
    const { branch, channel, place, polarization } = ends[called].units[(called === 0 ? group : other).unit]!;
    const endOf = (at: 0 | 1) => ({
      ...endLevels(hop, ends, at, carrier, directions),
      transmitHz: ends[at].units[ends[at].groups[carrier]!.unit]!.transmitHz,
    });
    const widthHz = widthOf(hop, place);
    return [{ name: branch, channel, widthHz, polarization, ends: [endOf(0), endOf(1)] }];
  });
}

/** What an end is built as, and what it has for each carrier. */
interface Equipped {
  readonly facts: ArrangementFacts;
  readonly units: readonly UnitSetting[];
  readonly groups: readonly CarrierUnits[];
}

function equipped(hop: Hop, end: HopEnd): Equipped {
  const facts = factsAt(hop, end) ?? SINGLE;
  return { facts, units: unitsOf(hop, end, facts), groups: carrierUnits(facts) };
}

function widthOf({ channel, furtherChannels, modes }: Hop, place: number): number | undefined {
  if (place > 0) return furtherChannels?.[place - 1]?.bandwidthHz;
  if (channel !== undefined) return channel.bandwidthHz;
  return modes.length > 0 ? Math.max(...modes.map(({ bandwidthHz }) => bandwidthHz)) : undefined;
}

function endLevels(
  hop: Hop,
  ends: readonly [Equipped, Equipped],
  at: 0 | 1,
  carrier: number,
  directions: readonly DirectionWays[],
): CarrierEnd {
  const { facts, groups } = ends[at];
  const group = groups[carrier]!;
  const farUnit = ends[1 - at]!.groups[carrier]!.unit;
  const [end, far] = [hop.ends[at], hop.ends[1 - at]!];
  const stands = standsOf(end, facts);
  const branches = branchesAt(end, facts, sidesOf(hop)[at]);
  const sent = directions.find(({ direction }) => direction.from === end.site.name);
  const back = directions.find(({ direction }) => direction.to === end.site.name);
  const unitAt = (unit: number, state: PathState): CarrierUnit => {
    const way = wayOf(sent, unit, state);
    return {
      ...place(stands, branches[unit]!),
      eirp: sent && way && byMode(hop, end, sent.direction, way.eirpGainDb),
    };
  };
  const unit = unitAt(group.unit, "normal");
  const standby =
    group.standby !== undefined && hasSecondWayOut(facts)
      ? unitAt(group.standby, "sender on standby")
      : undefined;
  const greatest = [unit, standby].flatMap((one) => one?.eirp?.greatestDbm ?? []);
  const arriving = wayOf(back, farUnit, "normal");
  return {
    site: end.site.name,
    ...unit,
    standby,
    licensedEirpDbm: greatest.length > 0 ? Math.max(...greatest) : undefined,
    received: back && arriving && byMode(hop, far, back.direction, arriving.totalDb),
  };
}

function wayOf(among: DirectionWays | undefined, unit: number, state: PathState): Way | undefined {
  return among?.ways.find((way) => way.unit === unit && way.path.state === state);
}

function place(stands: readonly Stand[], { name, arm, antenna: number }: Branch) {
  const { antenna, heightM } = stands[number - 1] ?? {};
  return { branch: name, arm, antennaNumber: number, antenna: antenna?.name, antennaHeightM: heightM };
}

/** The power of an end with what lies behind its transmitter. */
function byMode(hop: Hop, from: HopEnd, { modes }: DirectionResult, gainDb: number): LevelByMode | undefined {
  const powersDbm = hop.modes.flatMap((mode) => transmitPowerDbm(from, mode) ?? []);
  const highestDbm = powersDbm.at(-1);
  if (highestDbm === undefined) return undefined;
  const judgedDbm = judgedMode(hop, modes)?.transmitPowerDbm;
  return {
    judgedDbm: judgedDbm === undefined ? undefined : judgedDbm + gainDb,
    highestDbm: highestDbm + gainDb,
    greatestDbm: Math.max(...powersDbm) + gainDb,
  };
}
