import type { DemandsResult } from "../demands/result.js";
import type { Address } from "../design/address.js";
import type { Change } from "../design/change.js";
import type { Design, Hop } from "../design/design.js";
import type { Finding, RelatedPlace } from "../design/finding.js";
import type { Severity } from "../design/severity.js";
import type { Lack } from "../evaluate/account/lack.js";
import type { HopResult } from "../evaluate/account/result.js";
import type { InterferenceFound } from "../interference/network.js";
import type { HeldHop } from "../licence/held.js";
import type { HopInNetwork } from "../network/in-network.js";
import type { Memory } from "../network/memory.js";
import type { SiteInNetwork } from "../network/sites.js";
import type { ListedFiles } from "../others/listed.js";
import type { ArrangementFacts } from "../radio/arrangements.js";
import type { Criterion } from "./asked.js";
import type { Fixes } from "./fixes/mending.js";
import type { PositionSlip, SpotHeights } from "./position-slips.js";
import type { Tried } from "./trials.js";

/** What must be known before a rule can say anything; without it the rule is skipped. */
export type Need = "distance" | "clearance" | "levels" | "objective" | "availability";

/** What a rule documents about itself; the reference of rules is made from it. */
export interface RuleText {
  /** Kebab case. It never changes its meaning. */
  readonly id: string;
  readonly severity: Severity;
  readonly title: string;
  /** What is compared with what. */
  readonly checks: string;
  /** Why it matters to an engineer. */
  readonly why: string;
  readonly fix: string;
  /** A standard, or `common practice`. */
  readonly source: string;
  /** Of remarks on what figures rest on, for example `channel plans`: a reader is told how many there are, unless he asks. */
  readonly remarksOn?: string;
  /** Which arrangements it is about; undefined: not about arrangements. The pages of arrangements name it. */
  arrangements?(facts: ArrangementFacts): boolean;
  /**
   * What mends a finding of it, in the order in which it is tried: changes of facts, made when a fix is asked for and not
   * while it is judged. Those that need the text itself stand in `language/editor/fixes/`.
   */
  readonly fixes?: Fixes;
  /**
   * Of a rule about what hops do to each other: what a fix that was tried comes to, here and elsewhere, behind its title.
   * With it a finding of such a rule that was nowhere before speaks against the fix, whatever its severity.
   */
  comesTo?(finding: Finding, after: InterferenceFound): string | undefined;
  /** Lines that follow `EXAMPLE_PREAMBLE`: without this finding, and with it. */
  readonly good: string;
  readonly bad: string;
}

/** A finding as a rule writes it; the judge adds identifier and severity. */
export interface Report {
  readonly at: Address;
  /** See `Finding`. */
  readonly about?: string;
  readonly message: string;
  readonly help?: string;
  /** See `Finding`. */
  readonly changes?: readonly Change[];
  readonly related?: readonly RelatedPlace[];
  /** In place of the rule's own. */
  readonly severity?: Severity;
  /** See `Finding`. */
  readonly notJudged?: readonly string[];
}

export interface HopContext {
  readonly hop: Hop;
  readonly result: HopResult;
  /** What the objective asks, with the verdicts. */
  readonly criteria: readonly Criterion[];
  /** What keeps any of them open: told as such, and not by another rule. */
  readonly openLacks: ReadonlySet<Lack>;
  /**
   * Whether another rule, earlier in the registry, found something on this hop that is not accepted and no milder than
   * what this rule finds.
   */
  has(rule: string): boolean;
  /** Changes are tried with it; undefined: the host lends nothing to try with. */
  readonly tried?: Tried;
  /** Says that the rule stays quiet here because a cause has told it: its acceptance is not called unused then. */
  leaveToCause(): void;
  report(finding: Report): void;
}

/** A rule about one hop by itself. */
export interface HopRule extends RuleText {
  readonly scope: "hop";
  /** Finds one thing of a hop, told at whichever of its places carries the fault: it stays the same finding there. */
  readonly once?: true;
  readonly needs: readonly Need[];
  /** Causes of which this finding would only be the consequence: found there, and no milder, this rule stays quiet. */
  readonly quietAfter?: readonly string[];
  /** Facts of the hop or of an end: stated there and unusable, as the text tells, this finding would only follow. */
  readonly restsOn?: readonly string[];
  check(context: HopContext): void;
}

export interface NetworkContext {
  readonly design: Design;
  readonly results: ReadonlyMap<string, HopResult>;
  /** In the order of the design: the same array as long as all of them are the same. */
  readonly hops: readonly HopInNetwork[];
  /** Sites that have a hop or equipment. */
  readonly sites: ReadonlyMap<string, SiteInNetwork>;
  /** At the receivers of hops and of others; undefined: it was not computed. */
  readonly interference?: InterferenceFound;
  /** What the network carries; undefined: it states no demand. */
  readonly demands?: DemandsResult;
  /** Hops that have a licence, or are asked for one, by their names. */
  readonly licences: ReadonlyMap<string, HeldHop>;
  /** ISO dates: the day that is looked at, and today, against which the end of a licence is held. */
  readonly licencesOn: { readonly on: string; readonly today: string };
  /** Sites that stand where a slip of the pen may have put them. */
  readonly slips: ReadonlyMap<string, PositionSlip>;
  /** Of the terrain, where `spotsWanted` asks for them. */
  readonly heights: SpotHeights;
  /** Lists and patterns, as far as they were read. */
  readonly files: ListedFiles;
  /** Of what was looked at before and is the same now. */
  readonly memory: Memory;
  /** @param hop name of a hop whose acceptance would excuse the finding */
  report(finding: Report, hop?: string): void;
}

/** Told once, however many hops share it. */
interface SharedText extends RuleText {
  readonly scope: "network";
  /** Said of the results of hops, not of the design alone: with some hops evaluated it speaks of those only. */
  readonly ofResults?: true;
}

interface SiteContext extends SiteInNetwork {
  /** @param hop name of a hop whose acceptance would excuse the finding */
  report(finding: Report, hop?: string): void;
}

/** A rule about one site with the hops that end there. It sees nothing else: the site is judged anew only when it changes. */
export interface SiteRule extends SharedText {
  readonly each: "site";
  check(context: SiteContext): void;
}

interface HopInNetworkContext extends HopInNetwork {
  /** What the hop accepts would excuse it. */
  report(finding: Report): void;
}

/** A rule about one hop in its network. It sees nothing else: it is judged anew when what it rests on changes. */
export interface HopInNetworkRule extends SharedText {
  readonly each: "hop in network";
  check(context: HopInNetworkContext): void;
}

export interface Noted<Note> {
  readonly hop: Hop;
  readonly note: Note;
}

/** A rule about what hops have in common: what each of them gives rise to is noted by itself, and told together. */
export interface GatheringRule<Note = unknown> extends SharedText {
  readonly each: "hop";
  /** What one hop alone gives rise to; undefined: nothing. It sees nothing else: noted anew only when the hop changes. */
  note(hop: Hop, result: HopResult | undefined): Note | undefined;
  /** @param noted in the order of the text */
  tell(noted: readonly Noted<Note>[], context: NetworkContext): void;
  /** Of a rule about catalogue entries alone: those that a hop uses, each with what is wrong with it, whoever uses it. */
  ofEntries?(hop: Hop): Iterable<JudgedEntry>;
}

export interface JudgedEntry {
  readonly entry: string;
  readonly reports: readonly Report[];
}

/** A rule that looks at the network as a whole. */
interface WholeRule extends SharedText {
  readonly each?: undefined;
  check(context: NetworkContext): void;
}

export type NetworkRule = SiteRule | HopInNetworkRule | GatheringRule | WholeRule;

/** With the type of its notes inside and without it outside, where all rules are alike. */
export function gathering<Note>(rule: GatheringRule<Note>): GatheringRule {
  return rule as unknown as GatheringRule;
}

/** A rule about the acceptances themselves, which the judge applies. */
export interface AcceptanceRule extends RuleText {
  readonly scope: "acceptance";
}

export type Rule = HopRule | NetworkRule | AcceptanceRule;

export function meets(need: Need, hop: Hop, result: HopResult): boolean {
  switch (need) {
    case "distance":
      return result.distanceM !== undefined;
    case "clearance":
      return result.clearance.length > 0;
    case "levels":
      return result.directions.length > 0;
    case "objective":
      return hop.objective !== undefined;
    case "availability":
      return result.availability !== undefined || hop.objective?.availabilityPercent === undefined;
  }
}

export function finding(rule: RuleText, { severity, ...rest }: Report): Finding {
  return { rule: rule.id, severity: severity ?? rule.severity, ...rest };
}
