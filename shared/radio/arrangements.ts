import type { CouplerKind } from "../design/design.js";

/**
 * What hangs at one end of a hop for each arrangement. Counts and couplings are common practice of the
 * trade; a figure of loss never comes from here but from the catalogue.
 */
export interface ArrangementFacts {
  /** Canonical words, as the language writes them. */
  readonly name: string;
  readonly title: string;
  /** Outdoor units at one end; 0 for all-indoor radios. */
  readonly outdoorUnits: number;
  /** Transmitters on in the normal state. */
  readonly radiating: number;
  readonly workingCarriers: number;
  readonly antennas: number;
  /** The coupler that joins the units to one antenna; undefined: none belongs there. */
  readonly coupler?: CouplerKind;
  /** True when a muted unit waits on the standby arm. */
  readonly hotStandby: boolean;
  readonly dualPolarized: boolean;
}

export const ARRANGEMENTS: readonly ArrangementFacts[] = [
  row("1+0", "one carrier, unprotected", 1, 1, 1, 1),
  row("1+1 hot-standby", "hot standby on one antenna", 2, 1, 1, 1, "hybrid", { hotStandby: true }),
  row("1+1 hot-standby two-antennas", "hot standby, an antenna each", 2, 1, 1, 2, undefined, {
    hotStandby: true,
  }),
  row("1+1 space-diversity", "hot standby with space diversity", 2, 1, 1, 2, undefined, { hotStandby: true }),
  row("1+1 frequency-diversity", "frequency diversity on one antenna", 2, 2, 1, 1, "hybrid"),
  row("2+0 single-polarization", "two carriers in one polarization", 2, 2, 2, 1, "hybrid"),
  row("2+0 single-polarization two-antennas", "two carriers, an antenna each", 2, 2, 2, 2),
  row("2+0 dual-polarization", "two carriers, one a polarization", 2, 2, 2, 1, "omt", {
    dualPolarized: true,
  }),
  row("2+0 xpic", "two carriers on one channel in both polarizations", 2, 2, 2, 1, "omt", {
    dualPolarized: true,
  }),
  row("2+2 xpic hot-standby", "two hot-standby pairs, one a polarization", 4, 2, 2, 1, "dual-polarized", {
    hotStandby: true,
    dualPolarized: true,
  }),
  row("3+1", "three carriers and a protecting one", 4, 4, 3, 1, "dual-polarized", { dualPolarized: true }),
  row("4+0", "four carriers", 4, 4, 4, 1, "dual-polarized", { dualPolarized: true }),
  row("dual-band", "a carrier of a low and one of a high band", 2, 2, 2, 1),
  row("all-outdoor 1+0", "all-outdoor, one carrier", 1, 1, 1, 1),
  row("all-outdoor 1+1 hot-standby", "all-outdoor hot standby", 2, 1, 1, 1, "hybrid", { hotStandby: true }),
  row("all-indoor 1+0", "all-indoor, one carrier", 0, 1, 1, 1),
];

const BY_NAME = new Map(ARRANGEMENTS.map((facts) => [facts.name, facts]));

/** @returns undefined for words that name no arrangement known here. */
export function arrangementByName(name: string): ArrangementFacts | undefined {
  return BY_NAME.get(name);
}

/** Working carriers of one mode each, whose rates add up; 1 for words that are not known here. */
export function carriers(name: string): number {
  // The carriers of two bands have modes of their own: only one of them is described by the hop.
  return name === "dual-band" ? 1 : (BY_NAME.get(name)?.workingCarriers ?? 1);
}

function row(
  name: string,
  title: string,
  outdoorUnits: number,
  radiating: number,
  workingCarriers: number,
  antennas: number,
  coupler?: CouplerKind,
  more: { hotStandby?: boolean; dualPolarized?: boolean } = {},
): ArrangementFacts {
  return {
    name,
    title,
    outdoorUnits,
    radiating,
    workingCarriers,
    antennas,
    coupler,
    hotStandby: more.hotStandby ?? false,
    dualPolarized: more.dualPolarized ?? false,
  };
}
