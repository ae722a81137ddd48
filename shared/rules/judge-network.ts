import type { Design, UnformedHop } from "../design/design.js";
import type { Finding } from "../design/finding.js";
import type { HopResult } from "../evaluate/account/result.js";
import type { InterferenceFound } from "../interference/network.js";
import { heldInNetwork } from "../licence/held.js";
import { demandsInSteps } from "../network/demands.js";
import { type HopInNetwork, hopsInNetwork } from "../network/in-network.js";
import { Memory } from "../network/memory.js";
import { type SiteInNetwork, sitesInNetwork } from "../network/sites.js";
import { type ListedFiles, NO_FILES } from "../others/listed.js";
import { type Accepting, accepted, acceptingHop, acceptingOthers, judgeAcceptances } from "./acceptances.js";
import { NETWORK_RULES, RULES } from "./index.js";
import { notJudged, unformedReport } from "./not-judged.js";
import { agreedSeverity, judgePolicy } from "./policy.js";
import { positionSlips, type SpotHeights } from "./position-slips.js";
import {
  finding,
  type GatheringRule,
  type HopInNetworkRule,
  type NetworkContext,
  type Noted,
  type Report,
  type SiteRule,
} from "./rule.js";

const FINDING = {};
const NO_HEIGHTS: SpotHeights = new Map();

export interface NetworkOptions {
  /** Of the terrain, where `spotsWanted` asks for them. */
  readonly heights?: SpotHeights;
  /** Lists and patterns that the design names, as far as they were read. */
  readonly files?: ListedFiles;
  /** At the receivers of hops and of others; undefined: it was not computed. */
  readonly interference?: InterferenceFound;
  /** ISO date of today, where another day is looked at: licences end by the calendar, whatever is planned. */
  readonly calendar?: string;
  /** What an earlier judgement made of what is the same now. */
  readonly memory?: Memory;
}

/** @param today ISO date that acceptances are held against */
export function judgeNetwork(
  design: Design,
  results: ReadonlyMap<string, HopResult>,
  today: string,
  options?: NetworkOptions,
): Finding[] {
  const judging = judgeNetworkInSteps(design, results, today, options);
  for (let step = judging.next(); ; step = judging.next()) if (step.done) return step.value;
}

/** The same, with stops where the caller may let other work in or break off. */
export function* judgeNetworkInSteps(
  design: Design,
  results: ReadonlyMap<string, HopResult>,
  today: string,
  {
    heights = NO_HEIGHTS,
    files = NO_FILES,
    interference,
    calendar = today,
    memory = new Memory(),
  }: NetworkOptions = {},
): Generator<void, Finding[]> {
  const findings: Finding[] = [];
  const others = acceptingOthers(design);
  const found = new Map<string, Finding[]>();
  const acceptingFor = (at: string, hopName: string | undefined): Accepting | undefined => {
    if (hopName === undefined) return others.get(at.split(" / ")[0]!);
    const hop = design.hops.get(hopName);
    return hop && hop.accepts.length > 0 ? acceptingHop(hop) : undefined;
  };
  const inNetwork = sitesInNetwork(design, results, memory);
  const slips = positionSlips(design, heights, memory);
  const licences = heldInNetwork(design, results, today, memory);
  const licencesOn = { on: today, today: calendar };
  const hops = hopsInNetwork(design, results, memory, interference && ((name) => interference.of(name)));
  const context = {
    design,
    results,
    hops,
    sites: inNetwork,
    slips,
    heights,
    files,
    memory,
    interference,
    demands: yield* demandsInSteps(design, results, memory, inNetwork),
    licences,
    licencesOn,
  };
  const ofSites = yield* toldOfSites([...inNetwork.values()], memory);
  const { told: ofHops, noted } = yield* saidOfHops(hops, memory);
  for (const rule of NETWORK_RULES) {
    const report: NetworkContext["report"] = (what, hopName) => {
      const by = acceptingFor(what.at, hopName);
      const severity = agreedSeverity(rule, what.severity, design);
      // Most is said again as it was before.
      const agreed = memory.renew(FINDING, what, (known: Finding | undefined) =>
        known?.severity === severity ? known : finding(rule, { ...what, severity }),
      );
      const one = by ? accepted(by, agreed, today) : agreed;
      findings.push(one);
      if (by === undefined) return;
      const before = found.get(by.at);
      if (before) before.push(one);
      else found.set(by.at, [one]);
    };
    if (rule.each === undefined) rule.check({ ...context, report });
    else if (rule.each === "site") for (const one of ofSites.get(rule) ?? []) report(one.report, one.hop);
    else if (rule.each === "hop in network")
      for (const one of ofHops.get(rule) ?? []) report(one.report, one.hop);
    else if (noted.has(rule)) rule.tell(noted.get(rule)!, { ...context, report });
    yield;
  }
  for (const hop of design.unformed?.values() ?? []) findings.push(...judgeUnformed(hop, today));
  findings.push(...judgePolicy(design.policy));
  for (const hop of design.hops.values())
    if (hop.accepts.length > 0) findings.push(...judgeAccepting(acceptingHop(hop), found, today));
  for (const by of others.values()) findings.push(...judgeAccepting(by, found, today));
  return findings;
}

function judgeAccepting(by: Accepting, found: ReadonlyMap<string, Finding[]>, today: string): Finding[] {
  return judgeAcceptances(by, found.get(by.at) ?? [], "network", today);
}

interface Told<Rule> {
  readonly rule: Rule;
  readonly report: Report;
  readonly hop?: string;
}

const SITE_RULES = NETWORK_RULES.filter((rule): rule is SiteRule => rule.each === "site");
const HOP_RULES = NETWORK_RULES.filter((rule): rule is HopInNetworkRule => rule.each === "hop in network");
const GATHERING_RULES = NETWORK_RULES.filter((rule): rule is GatheringRule => rule.each === "hop");

/** What the rules of sites report, by rule and in the order of the sites. */
function* toldOfSites(
  sites: readonly SiteInNetwork[],
  memory: Memory,
): Generator<void, ReadonlyMap<SiteRule, readonly Told<SiteRule>[]>> {
  const byRule = new Map<SiteRule, Told<SiteRule>[]>();
  for (const told of yield* memory.eachInSteps(SITE_RULES, sites, reportsOf))
    for (const one of told) add(byRule, one.rule, one);
  return byRule;
}

const NOTHING: readonly never[] = [];

function reportsOf(site: SiteInNetwork): readonly Told<SiteRule>[] {
  const told: Told<SiteRule>[] = [];
  for (const rule of SITE_RULES)
    rule.check({ ...site, report: (report, hop) => void told.push({ rule, report, hop }) });
  return told.length === 0 ? NOTHING : told;
}

interface SaidOfHop {
  readonly told: readonly Told<HopInNetworkRule>[];
  readonly notes: readonly { readonly rule: GatheringRule; readonly noted: Noted<unknown> }[];
}

interface SaidOfHops {
  readonly told: ReadonlyMap<HopInNetworkRule, readonly Told<HopInNetworkRule>[]>;
  readonly noted: ReadonlyMap<GatheringRule, readonly Noted<unknown>[]>;
}

/** What is reported of hops in their network, and what the gathering rules note of them: by rule, in the order of the hops. */
function* saidOfHops(hops: readonly HopInNetwork[], memory: Memory): Generator<void, SaidOfHops> {
  const told = new Map<HopInNetworkRule, Told<HopInNetworkRule>[]>();
  const noted = new Map<GatheringRule, Noted<unknown>[]>();
  for (const said of yield* memory.eachInSteps(GATHERING_RULES, hops, saidOf)) {
    for (const one of said.told) add(told, one.rule, one);
    for (const { rule, noted: one } of said.notes) add(noted, rule, one);
  }
  return { told, noted };
}

const SILENT: SaidOfHop = { told: NOTHING, notes: NOTHING };

function saidOf(inNetwork: HopInNetwork): SaidOfHop {
  const { hop, result } = inNetwork;
  const told: Told<HopInNetworkRule>[] = [];
  for (const rule of HOP_RULES)
    rule.check({ ...inNetwork, report: (report) => void told.push({ rule, report, hop: hop.name }) });
  const notes = GATHERING_RULES.flatMap((rule) => {
    const note = rule.note(hop, result);
    return note === undefined ? [] : [{ rule, noted: { hop, note } }];
  });
  return told.length + notes.length === 0 ? SILENT : { told, notes };
}

function add<Key, T>(lists: Map<Key, T[]>, key: Key, one: T): void {
  const list = lists.get(key);
  if (list) list.push(one);
  else lists.set(key, [one]);
}

/** A hop without two ends: of its acceptances nobody knows what else they would excuse. */
function judgeUnformed(hop: UnformedHop, today: string): Finding[] {
  const report = unformedReport(hop);
  if (report === undefined) return [];
  const by = acceptingHop(hop);
  const found = accepted(by, finding(notJudged, report), today);
  return [found, ...judgeAcceptances(by, [found], "hop", today, new Set(RULES.keys()))];
}
