/** The antennas of an end, each with what joins units to it. */
import type { Antenna, Coupler, HopEnd } from "../design/design.js";
import type { ArrangementFacts } from "../radio/arrangements.js";
import type { Join } from "./branches.js";

/** An antenna that an end states, and its coupler. */
export interface Stand {
  readonly antenna?: Antenna;
  /** Antenna centre above ground. */
  readonly heightM?: number;
  readonly coupler?: Coupler;
}

/** In the order in which branches count them. */
export function standsOf(end: HopEnd, facts: ArrangementFacts): readonly Stand[] {
  const { antenna, antennaHeightM, coupler, diversityAntenna, diversityHeightM } = end;
  const first: Stand = { antenna, heightM: antennaHeightM, coupler };
  if (facts.antennas === 1) return [first];
  const further = { antenna: diversityAntenna ?? antenna, heightM: diversityHeightM, coupler };
  return [first, ...Array.from({ length: facts.antennas - 1 }, () => further)];
}

/** What joins units to each antenna: what is stated where it suits the arrangement, else what it usually has. */
export function joinsOf(stands: readonly Stand[], facts: ArrangementFacts): readonly Join[] {
  return stands.map(({ coupler }): Join => {
    const kind = coupler?.kind;
    return kind !== undefined && suits(kind, facts) ? kind : (facts.coupler ?? "none");
  });
}

/** An orthomode transducer takes two of the units for which a dual-polarized coupler is usual. */
export function suits(kind: NonNullable<Coupler["kind"]>, facts: ArrangementFacts): boolean {
  return kind === facts.coupler || (kind === "omt" && facts.coupler === "dual-polarized");
}
