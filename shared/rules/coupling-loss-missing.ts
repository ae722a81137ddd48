import { type Address, address } from "../design/address.js";
import type { InterferenceTerms } from "../design/interference.js";
import type { CoLocated, InterferenceAt } from "../interference/receiver-result.js";
import { NEAR_M } from "../interference/search.js";
import { isOwn, type Owner } from "../interference/station.js";
import type { HopInNetwork } from "../network/in-network.js";
import { lineWords, plainName } from "../words/interference.js";
import { listed } from "../words/lists.js";
import { exampleHop } from "./example-preamble.js";
import type { NetworkRule } from "./rule.js";

/** A second hop from TARN, a channel beside the first, which sends there in one half or the other. */
function hub(half: "low" | "high"): string {
  const other = exampleHop({
    keld: `antenna DISH60-18 at 30 m\n    transmits ${half === "low" ? "high" : "low"}`,
    tarn: `antenna DISH60-18 at 30 m\n    transmits ${half}`,
  });
  return `site MOSS {
  at 47.6 -30.45
  structure mast 60 m
}

${exampleHop()}

${other.replaceAll("KELD", "MOSS").replace("/ 4", "/ 5")}`;
}

export const couplingLossMissing: NetworkRule = {
  scope: "network",
  id: "coupling-loss-missing",
  severity: "info",
  ofResults: true,
  title: "What antennas at one place do to each other is measured, and stated",
  checks:
    "Whether a coupling loss is stated for each pair of a transmitter and a receiver that stand within 100 m of each other and within reach of the receiver's filter, of this design or of others. Where the network states a criterion of interference that concerns the receiver it is open until then, and the finding is an error.",
  why: "So near no formula of the far field holds: no loss can be computed, and the pair is left out of every sum. At one place it may be the strongest interferer of all.",
  fix: "Measure the loss between the two antenna ports, or take it from a measurement of like antennas, and state it with `coupling-loss` or `coupling-loss-others` at the site; or accept that it stays open.",
  source: "common practice; the distance is ours",
  good: hub("low"),
  bad: hub("high"),
  check({ hops, interference, memory, report }) {
    if (interference === undefined) return;
    const open = new Map<string, Open>();
    for (const pairs of memory.each(HEARD, hops, heardBy)) addAll(open, pairs);
    for (const pairs of memory.each(HARMED, interference.ofOthers(), harmedAt)) addAll(open, pairs);
    for (const one of open.values()) report(toldOf(one), one.hop);
  },
};

/** An end of a hop for which no coupling loss is stated where it would have to be. */
interface OwnEnd {
  readonly hop: string;
  readonly site: string;
  /** Whether its receiver is concerned, or those of others by its sender. */
  readonly way: "hears" | "harms";
  readonly isAsked: boolean;
}

interface Pair extends OwnEnd {
  readonly other: Owner;
}

interface Open extends OwnEnd {
  /** Whose the others are: by hop, and those of others all together. */
  readonly others: Map<string, readonly Owner[]>;
}

const OTHERS = "";
const HEARD = {};
const HARMED = {};
const NONE: readonly Pair[] = [];

function addAll(open: Map<string, Open>, pairs: readonly Pair[]): void {
  for (const { hop, site, way, other, isAsked } of pairs) {
    const key = `${hop} ${site} ${way}`;
    let one = open.get(key);
    if (one === undefined) open.set(key, (one = { hop, site, way, others: new Map(), isAsked }));
    const name = isOwn(other) ? other.hop : OTHERS;
    one.others.set(name, [...(one.others.get(name) ?? []), other]);
  }
}

function heardBy({ hop: { name }, interference = [] }: HopInNetwork): readonly Pair[] {
  const pairs = interference.flatMap((at) => {
    const { site } = at.receiver.place;
    if (site === undefined) return NONE;
    const own: OwnEnd = { hop: name, site, way: "hears", isAsked: isAsked(at.terms, "hears") };
    return unjudged(at).map(({ sender }) => ({ ...own, other: sender.of }));
  });
  return pairs.length === 0 ? NONE : pairs;
}

function harmedAt(at: InterferenceAt): readonly Pair[] {
  const pairs = unjudged(at).flatMap(({ sender: { of, place } }): readonly Pair[] => {
    if (!isOwn(of) || place.site === undefined) return NONE;
    const own: OwnEnd = { hop: of.hop, site: place.site, way: "harms", isAsked: isAsked(at.terms, "harms") };
    return [{ ...own, other: at.receiver.of }];
  });
  return pairs.length === 0 ? NONE : pairs;
}

function unjudged({ coLocated }: InterferenceAt): readonly CoLocated[] {
  return coLocated.filter(({ toNoiseDb }) => toNoiseDb === undefined);
}

function isAsked(terms: InterferenceTerms, way: OwnEnd["way"]): boolean {
  const stated =
    way === "hears"
      ? [terms.singleEntryDegradationDb, terms.aggregateDegradationDb, terms.shortTermDegradationDb]
      : [terms.towardOthersLongTermDb, terms.towardOthersShortTermDb];
  return stated.some((one) => one !== undefined);
}

function toldOf({ hop, site, way, others, isAsked: asked }: Open) {
  const at: Address = address("hop", hop, site);
  const foreign = others.get(OTHERS) ?? [];
  const own = [...others.keys()].filter((name) => name !== OTHERS);
  const who = [...own, ...(foreign.length === 0 ? [] : [foreignTold(foreign)])];
  const lines = [
    ...own.map((name) => `coupling-loss ${hop} ${name} 60 dB`),
    ...(foreign.length === 0 ? [] : [`coupling-loss-others ${hop} 60 dB`]),
  ];
  const what =
    way === "hears"
      ? `what its receiver at ${site} gets from ${listed(who)}`
      : `what receivers of others get from it at ${site}, ${listed(who)},`;
  return {
    at,
    about: `${hop} ${site} ${way}`,
    severity: asked ? ("error" as const) : undefined,
    message: `${hop}: ${what} within ${NEAR_M} m is not judged: no coupling loss is stated`,
    help: `in site ${site}, with what is measured: ${lines.map((line) => `\`${line}\``).join(", ")}`,
    ...(asked && { notJudged: [way === "hears" ? "interference-degradation" : "others-harmed"] }),
  };
}

const MOST_LINES = 3;

function foreignTold(owners: readonly Owner[]): string {
  const lines = [...new Set(owners.flatMap((of) => (isOwn(of) ? [] : [named(of)])))];
  const more = lines.length - MOST_LINES;
  return `others (${lines.slice(0, MOST_LINES).join(", ")}${more > 0 ? ` and ${more} more` : ""})`;
}

function named(of: Exclude<Owner, { readonly hop: string }>): string {
  return of.name === undefined ? lineWords(of) : `"${plainName(of.name)}", ${lineWords(of)}`;
}
