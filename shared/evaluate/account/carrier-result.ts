/** What each carrier of a hop sends and receives. */
import type { Polarization } from "../../design/design.js";
import type { Arm } from "../../equipment/branches.js";

/** A level in the modes that matter. */
export interface LevelByMode {
  /** In the mode that the objective is held against; undefined: no mode has a threshold. */
  readonly judgedDbm?: number;
  /** In the highest mode, which runs in clear air: what is measured at line-up. */
  readonly highestDbm: number;
  /** In the mode of the most power. */
  readonly greatestDbm: number;
}

/** A unit with its way to the antenna. */
export interface CarrierUnit {
  /** For example `only`, `carrier 2`, `first polarization, standby`. */
  readonly branch: string;
  /** Of the coupler; `none` where nothing joins it to another. */
  readonly arm: Arm;
  /** Of the end, from 1. */
  readonly antennaNumber: number;
  readonly antenna?: string;
  /** Above ground. */
  readonly antennaHeightM?: number;
  /** Undefined: a power, loss or gain is not known. */
  readonly eirp?: LevelByMode;
}

export interface CarrierEnd extends CarrierUnit {
  readonly site: string;
  /** Undefined: its channel, or the half of the end, is not known. */
  readonly transmitHz?: number;
  /** The muted unit that sends in its place after a switch. */
  readonly standby?: CarrierUnit;
  /** What a licence is for: the greatest of any mode, of the unit and its standby. */
  readonly licensedEirpDbm?: number;
  /** From the far end, normal state; at the first channel's frequency where its own is not known. */
  readonly received?: LevelByMode;
}

/** What is on the air in the normal state, a unit each at both ends. */
export interface CarrierResult {
  /** Its unit's branch. */
  readonly name: string;
  /** Number in the channel plan. */
  readonly channel?: number;
  /** Of the channel, else of the widest mode. */
  readonly widthHz?: number;
  /** As stated, or across it; undefined: not stated. */
  readonly polarization?: Polarization;
  /** In the order of the hop's ends. */
  readonly ends: readonly [CarrierEnd, CarrierEnd];
}
