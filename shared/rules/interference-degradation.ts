import { type Address, address } from "../design/address.js";
import type { Fix } from "../design/fact-change.js";
import type { RelatedPlace } from "../design/finding.js";
import { decibels } from "../format/numbers.js";
import { ROUNDING_DB, USUAL_DEGRADATION_DB } from "../interference/limits.js";
import type { InterferenceFound } from "../interference/network.js";
import type { InterferenceAt } from "../interference/receiver-result.js";
import { isOwn } from "../interference/station.js";
import { entryWords } from "../words/interference.js";
import { fromHub } from "./example-interference.js";
import { lessInterference } from "./fixes/less-interference.js";
import { endHere, type Mending } from "./fixes/mending.js";
import type { HopInNetworkRule } from "./rule.js";

export const interferenceDegradation: HopInNetworkRule = {
  scope: "network",
  each: "hop in network",
  id: "interference-degradation",
  severity: "error",
  title: "Other transmissions leave a receiver its threshold",
  checks:
    "At every receiver the degradation of its threshold by the strongest transmitter and by all together, in the long-term percentage of time, and by the strongest in the short-term one, against what the network allows; a warning from 1 dB on where it states nothing.",
  why: "What interference takes is missing from every margin, and with it from every availability. It comes from hops that nobody looked at when this one was planned.",
  fix: "Another channel, the other polarization, less power at the sender, or antennas that see less aside.",
  source: "common practice; 1 dB by one transmitter is from memory",
  fixes: mendReceiver,
  comesTo({ at }, after) {
    const [, hop, site] = /^hop (.*?) \/ (.*)$/.exec(at) ?? [];
    const here = hop === undefined ? undefined : worstAt(after, hop, site);
    return `${decibels(here?.degradationDb ?? 0)} here, nothing new elsewhere`;
  },
  good: fromHub({ channel: 6 }),
  bad: fromHub({ channel: 4 }),
  check({ hop, interference = [], report }) {
    const worst = new Map<string, { readonly at: InterferenceAt; readonly fault: Fault }>();
    for (const at of interference) {
      const fault = faultOf(at);
      const site = at.receiver.place.site ?? "";
      const known = worst.get(site);
      // Of both polarizations and all channels of an end the worst one is told.
      if (fault !== undefined && (known === undefined || fault.overDb > known.fault.overDb))
        worst.set(site, { at, fault });
    }
    for (const [site, { at, fault }] of worst) {
      const strongest = at.entries[0];
      report({
        at: address("hop", hop.name, site),
        about: address("hop", hop.name),
        severity: fault.severity,
        message: `${fault.what} at ${site} by ${decibels(fault.db)}${fault.asked}${fault.beside}${strongest ? `; most by ${entryWords(strongest)}` : ""}`,
        related: relatedOf(at),
      });
    }
  },
};

function mendReceiver(mending: Mending): readonly Fix[] {
  const here = endHere(mending);
  const at = here && mending.interference && worstAt(mending.interference, here.hop.name, here.site);
  return at === undefined ? [] : lessInterference(mending, at);
}

/** Of the receivers of a hop at a site the one that suffers most. */
function worstAt(
  found: InterferenceFound,
  hop: string,
  site: string | undefined,
): InterferenceAt | undefined {
  return found
    .of(hop)
    .filter(({ receiver }) => receiver.place.site === site)
    .toSorted((a, b) => b.degradationDb - a.degradationDb)[0];
}

interface Fault {
  readonly db: number;
  readonly overDb: number;
  readonly what: string;
  /** The end of the sentence: what is allowed. */
  readonly asked: string;
  /** What else is passed here. */
  readonly beside: string;
  readonly severity: "error" | "warning";
}

function faultOf(at: InterferenceAt): Fault | undefined {
  const { singleEntryDegradationDb, aggregateDegradationDb, shortTermDegradationDb } = at.terms;
  const stated = (singleEntryDegradationDb ?? aggregateDegradationDb ?? shortTermDegradationDb) !== undefined;
  const faults = [
    faultBy(at.singleDegradationDb, singleEntryDegradationDb, "one transmitter raises the threshold"),
    faultBy(at.degradationDb, aggregateDegradationDb, "all transmitters together raise the threshold"),
    faultBy(
      at.shortDegradationDb,
      shortTermDegradationDb,
      "for a short time one transmitter raises the threshold",
    ),
    stated
      ? undefined
      : faultBy(at.degradationDb, USUAL_DEGRADATION_DB, "interference raises the threshold", "warning"),
  ].filter((fault) => fault !== undefined);
  const [worst, ...others] = faults.toSorted((a, b) => b.overDb - a.overDb);
  const beside = others.map(({ what, db, asked }) => `; ${what} by ${decibels(db)}${asked}`).join("");
  return worst && { ...worst, beside };
}

function faultBy(
  db: number,
  mostDb: number | undefined,
  what: string,
  severity: Fault["severity"] = "error",
): Fault | undefined {
  if (mostDb === undefined || !(db > mostDb + ROUNDING_DB)) return undefined;
  const asked = severity === "error" ? `, ${decibels(mostDb)} is allowed` : "";
  return { db, overDb: db - mostDb, what, asked, beside: "", severity };
}

/** Hops that cause most of it. */
function relatedOf({ entries }: InterferenceAt): RelatedPlace[] {
  const told: RelatedPlace[] = [];
  for (const { sender, toNoiseDb } of entries.slice(0, 3)) {
    if (!isOwn(sender.of) || sender.place.site === undefined) continue;
    const at: Address = address("hop", sender.of.hop, sender.place.site);
    if (!told.some((one) => one.at === at))
      told.push({ at, message: `comes in ${decibels(toNoiseDb)} against the noise` });
  }
  return told;
}
