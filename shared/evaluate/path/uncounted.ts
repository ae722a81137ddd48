/** What a hop states, or needs and does not state, that its figures leave out: with it they would be worse. */
import { address, nth } from "../../design/address.js";
import type { Hop } from "../../design/design.js";
import {
  antennasStated,
  couplersStated,
  feedersStated,
  joiningOf,
  standsOf,
  suits,
} from "../../equipment/stands.js";
import { factsAt, unfitAt } from "../../radio/arrangement-pairs.js";
import { transmitAlike } from "../../radio/halves.js";
import { isAboveMode, weakestMode } from "../../radio/mode-power.js";
import { firstOutside, firstOutsideAntenna } from "../../radio/used-frequencies.js";
import { missing, type Trace } from "../account/trace.js";
import type { Course } from "./geometry.js";
import { obstacleTitle, standsOnPath } from "./profile.js";

/** Tells what no figure counts: obstacles off the path, two senders that no receiver hears, ends that do not work together, the loss of couplers, parts for other bands, power that is not there. */
export function missUncounted(hop: Hop, course: Course | undefined, trace: Trace): void {
  const at = (...steps: string[]) => address("hop", hop.name, ...steps);
  for (const [index, obstacle] of hop.obstacles.entries()) {
    if (course === undefined || standsOnPath(obstacle, course.distanceM)) continue;
    const reason = { code: "obstacle-off-path", obstacle: obstacleTitle(obstacle) } as const;
    missing(trace, { code: "off path", of: ["profile"], reason, at: at(nth("obstacle", index)) });
  }
  if (transmitAlike(hop)) {
    const [a, b] = hop.ends;
    const reason = { code: "transmit-alike", sites: [a.site.name, b.site.name] } as const;
    missing(trace, { code: "no receiver", of: ["level"], reason, at: at(b.site.name, "transmits") });
  }
  missPartners(hop, trace);
  missCouplers(hop, trace);
  missBands(hop, trace);
  missPowers(hop, trace);
}

/** What is built for another band loses nobody knows how much here. */
function missBands(hop: Hop, trace: Trace): void {
  for (const end of hop.ends) {
    const parts = [
      ...antennasStated(end).map(({ antenna, fact }) => ({
        name: antenna?.name,
        fact,
        hz: antenna && firstOutsideAntenna(hop, antenna),
      })),
      ...[
        ...couplersStated(end).map(({ coupler, fact }) => ({ part: coupler, fact })),
        ...feedersStated(end).map(({ feeder, fact }) => ({ part: feeder, fact })),
      ].map(({ part: { name, band }, fact }) => ({ name, fact, hz: band && firstOutside(hop, band) })),
    ];
    const site = end.site.name;
    for (const { name, fact, hz } of parts) {
      if (hz === undefined || name === undefined) continue;
      const reason = { code: "part-of-other-band", part: name, site, frequencyHz: hz } as const;
      const at = address("hop", hop.name, site, fact);
      missing(trace, { code: "other band", of: ["level", "standby"], reason, at });
    }
  }
}

/** A level with more power than the transmitter has is none of this hop's. */
function missPowers(hop: Hop, trace: Trace): void {
  for (const { site, transmitPowerDbm } of hop.ends) {
    const weakest = weakestMode(hop.modes);
    if (!isAboveMode(transmitPowerDbm, weakest)) continue;
    missing(trace, {
      code: "power not had",
      of: ["level", "standby"],
      reason: { code: "power-above-mode", site: site.name, modulation: weakest?.modulation },
      at: address("hop", hop.name, site.name, "power"),
    });
  }
}

/** An end whose arrangement the other has no partner for counts as built like the other. */
function missPartners(hop: Hop, trace: Trace): void {
  for (const end of hop.ends) {
    const own = unfitAt(hop, end)?.name;
    if (own === undefined) continue;
    missing(trace, {
      code: "ends apart",
      of: ["level", "standby", "capacity"],
      reason: { code: "arrangement-apart", site: end.site.name, own, other: hop.arrangement.name },
      at: address("hop", hop.name, end.site.name, "arrangement"),
    });
  }
}

function missCouplers(hop: Hop, trace: Trace): void {
  for (const end of hop.ends) {
    const facts = factsAt(hop, end);
    const site = end.site.name;
    if (facts?.coupler === undefined || end.antenna === undefined) continue;
    const stands = standsOf(end, facts);
    const { lacking } = joiningOf(stands, facts);
    for (const [index, stand] of stands.entries()) {
      const { coupler, couplerFact } = stand;
      const wrong = coupler !== undefined && !(coupler.kind !== undefined && suits(coupler.kind, facts));
      // One that is stated and cannot be used is told as such.
      const stated = hop.unusable?.some((one) => one.site === site && one.fact === couplerFact) ?? false;
      if (!wrong && (stated || !lacking.includes(index))) continue;
      missing(trace, {
        code: "no coupler",
        of: ["level", "standby"],
        reason: {
          code: "units-not-joined",
          site,
          ...(wrong && { coupler: coupler.name }),
          ...(index > 0 && { property: stand.fact }),
        },
        at: address("hop", hop.name, site, couplerFact),
      });
    }
  }
}
