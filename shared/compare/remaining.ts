/** What became of findings that the new side does not hold: mended, or only not told. */
import type { Hop } from "../design/design.js";
import type { Finding } from "../design/finding.js";
import { RULES } from "../rules/index.js";
import { judgedHop } from "../rules/judge.js";
import type { ComparedHop, ComparedSide } from "./change-set.js";
import { isBehindGraver, isOpenOn, isOpenOnLoad } from "./demands.js";
import { type GuideChange, goneWithGuide, guideChange } from "./guides.js";
import { addressNow, hopNow, type Renames, siteNow } from "./renames.js";

export interface RemainingOptions {
  /** ISO date that acceptances are held against. */
  readonly today: string;
  /** Remarks that are said once for many, by `remarkKey`, which hops beside the evaluated ones still have. */
  readonly remarks?: ReadonlySet<string>;
}

/** Undefined: the finding is not said once for many. */
export function remarkKey({ rule, about }: Finding): string | undefined {
  return about === undefined ? undefined : `${rule} ${about}`;
}

/** Remarks on shared things that one side of the evaluated hops has and the other has not. */
export function vanishedRemarks(was: ComparedSide, is: ComparedSide): Set<string> {
  const keys = ({ findings }: ComparedSide) =>
    findings.filter(({ rule }) => restsOnResults(rule)).flatMap((one) => remarkKey(one) ?? []);
  const there = new Set(keys(is));
  return new Set(keys(was).filter((key) => !there.has(key)));
}

/** Others are judged from the whole design, whatever is evaluated. */
function restsOnResults(id: string): boolean {
  const rule = RULES.get(id);
  return rule?.scope === "network" && rule.ofResults === true;
}

/** For `findingChanges`. */
export function remainingOn(
  was: ComparedSide,
  is: ComparedSide,
  renames: Renames,
  { today, remarks }: RemainingOptions,
): (was: Finding) => Finding | "no longer judged" | undefined {
  const silent = new Map<string, ReadonlySet<string>>();
  const silentOf = (name: string, { hop, result }: ComparedHop) => {
    let rules = silent.get(name);
    if (rules === undefined) silent.set(name, (rules = judgedHop(hop, result, today).passedOver));
    return rules;
  };
  const guides = new Map<string, GuideChange>();
  const guidesOf = (name: string, before: Hop, now: Hop) => {
    let change = guides.get(name);
    if (change === undefined)
      guides.set(name, (change = guideChange(before, now, (site) => siteNow(site, renames))));
    return change;
  };
  const lostAt = sitesOfLost(was, is, renames);
  return (finding) => {
    if (remarks?.has(remarkKey(finding) ?? "")) return finding;
    const owner = addressNow(finding.at, renames).split(" / ")[0]!;
    if (owner.startsWith("site ") && lostAt.has(owner)) return "no longer judged";
    const demand = owner.startsWith("demand ") && is.demands?.demands.get(owner.slice("demand ".length));
    if (demand && isOpenOn(finding.rule, demand)) return "no longer judged";
    const load =
      finding.about === undefined ? undefined : is.demands?.hops.get(hopNow(finding.about, renames));
    if (load && isOpenOnLoad(finding.rule, load)) return "no longer judged";
    const scope = RULES.get(finding.rule)?.scope;
    if (!owner.startsWith("hop ") || scope === undefined) return undefined;
    const name = owner.slice("hop ".length);
    const now = is.hops.get(name);
    if (now === undefined) return undefined;
    // What hops of a site share is not known while one of them cannot be judged.
    if (scope === "network" && now.hop.ends.some(({ site }) => lostAt.has(`site ${site.name}`)))
      return "no longer judged";
    if (silentOf(name, now).has(finding.rule)) return "no longer judged";
    const before = was.hops.get(finding.at.split(" / ")[0]!.slice("hop ".length));
    if (before === undefined) return undefined;
    const moved = { ...finding, at: addressNow(finding.at, renames) };
    return goneWithGuide(moved, name, guidesOf(name, before.hop, now.hop)) ? "no longer judged" : undefined;
  };
}

/** For `findingChanges`: what growth or a failure does to a hop that was too small already, and is not any more. */
export function leftOn({ demands }: ComparedSide, renames: Renames): (is: Finding) => boolean {
  const loads = new Map([...(demands?.hops ?? [])].map(([name, load]) => [hopNow(name, renames), load]));
  return ({ rule, about }) => {
    const load = about === undefined ? undefined : loads.get(about);
    return load !== undefined && isBehindGraver(rule, load);
  };
}

/** Sites of hops that are still stated and cannot be resolved any more: what those ask of them is not known. */
function sitesOfLost(was: ComparedSide, is: ComparedSide, renames: Renames): Set<string> {
  const stated = new Set(is.decisions.hops);
  const lost = [...was.design.hops.keys()]
    .map((name) => hopNow(name, renames))
    .filter((name) => stated.has(name) && !is.design.hops.has(name));
  return new Set(lost.flatMap((name) => (is.decisions.hop(name)?.ends ?? []).map((site) => `site ${site}`)));
}
