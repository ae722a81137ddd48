import type { Hop, HopEnd } from "../design/design.js";
import { factsAt } from "../radio/arrangement-pairs.js";
import { leadTo } from "./mounting.js";
import { standsOf } from "./stands.js";

/**
 * What is turned by 90 degrees at an end between one polarization and the other: as the radio states, else what sits on
 * the antenna, or the feed of an antenna that stands apart. Common practice.
 * @returns undefined where both polarizations are used, where the port takes one alone, and where neither antenna nor
 * radio says a word of it
 */
export function turnedAt(hop: Hop, end: HopEnd): "unit" | "coupler" | "feed" | undefined {
  const facts = factsAt(hop, end);
  if (facts === undefined || facts.dualPolarized) return undefined;
  const [stand] = standsOf(end, facts);
  const takes = stand?.antenna?.mount?.takes;
  const turns = hop.radio?.unit?.turns;
  const isSaid = takes === "either" || (takes === undefined && turns !== undefined);
  if (stand?.antenna === undefined || stand.antenna.polarizations === "dual" || !isSaid) return undefined;
  if (!(turns ?? leadTo(hop, end, stand) === "none")) return "feed";
  return stand.coupler === undefined ? "unit" : "coupler";
}
