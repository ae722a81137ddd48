/** What results say of an objective, read without the table that judging reads; and whether the findings say the same. */

import type { Hop, HopEnd } from "../../shared/design/design.js";
import type { Finding } from "../../shared/design/finding.js";
import type { ClearanceCriterion } from "../../shared/design/objective.js";
import { furtherRays } from "../../shared/equipment/rays.js";
import type { DirectionResult } from "../../shared/evaluate/account/level-result.js";
import type { Verdict } from "../../shared/evaluate/account/outage-result.js";
import type { ClearanceResult } from "../../shared/evaluate/account/path-result.js";
import type { HopResult } from "../../shared/evaluate/account/result.js";
import { unfitAt } from "../../shared/radio/arrangement-pairs.js";
import { ARRANGEMENTS } from "../../shared/radio/arrangements.js";

/** Each criterion of the hop's objective by the rule that judges it. */
function verdictsOf(hop: Hop, result: HopResult): ReadonlyMap<string, Verdict> {
  const verdicts = new Map<string, Verdict>();
  const { objective, arrangement } = hop;
  if (objective === undefined) return verdicts;
  const facts = ARRANGEMENTS.find(({ name }) => name === arrangement.name);
  // What does not go with the other end counts as not stated.
  const builtAs = (end: HopEnd) =>
    end.arrangement === undefined || unfitAt(hop, end)
      ? facts
      : ARRANGEMENTS.find(({ name }) => name === end.arrangement!.name);
  const hasStandby = hop.ends.some((end) => builtAs(end)?.hotStandby);
  const { clearance, diversityClearance, availabilityPercent, capacityBps } = objective;
  if (clearance.length > 0) verdicts.set("clearance", ofRay(clearance, result.clearance));
  const second = diversityClearance ?? clearance;
  for (const [end, one] of hop.ends.entries()) {
    const { site, diversityAntenna } = one;
    if (!builtAs(one)?.spaceDiversity || diversityAntenna === undefined || second.length === 0) continue;
    const path = result.furtherPaths?.find(
      ({ antennas, name }) => antennas[end] === 2 && name.endsWith(site.name),
    );
    verdicts.set(
      "diversity-clearance",
      worse(verdicts.get("diversity-clearance"), ofRay(second, path?.clearance ?? [])),
    );
  }
  // Of two antennas standby is judged from the far end's first one, the second carrier from where it hangs there; a
  // hybrid takes both units to the first antenna unless the arrangement names two.
  const two = arrangement.name.endsWith("two-antennas");
  const hangs = (end: HopEnd) =>
    end.further?.[0]?.antenna && (builtAs(end)?.name.endsWith("two-antennas") || end.coupler === undefined);
  const seconds = hop.ends.filter(hangs).length;
  const hung = hop.ends.every(({ further, coupler }) => further?.[0]?.antenna || coupler?.kind === "hybrid");
  const standby = hop.ends.filter((end) => {
    const own = builtAs(end);
    return own?.hotStandby && !own.spaceDiversity && own.transceivers === 2 && hangs(end);
  }).length;
  // Without a coupler carriers go over as many antennas as hang there, in whatever pairs.
  const spread =
    two || facts === undefined || hasStandby || facts.spaceDiversity ? 0 : furtherRays(hop).length;
  const rays = standby + spread + (two && !hasStandby && hung && seconds > 0 ? 1 : 0);
  const further = (result.furtherPaths ?? []).filter(({ of }) => of !== "diversity");
  if (rays > 0 && clearance.length > 0)
    for (let ray = 0; ray < rays; ray++)
      verdicts.set(
        "second-antenna-clearance",
        worse(verdicts.get("second-antenna-clearance"), ofRay(clearance, further[ray]?.clearance ?? [])),
      );
  if (availabilityPercent !== undefined) verdicts.set("availability", result.availability?.verdict ?? "open");
  const [first, other] = result.directions.map((direction) => marginOf(hop, direction));
  if (objective.fadeMarginDb !== undefined)
    verdicts.set("fade-margin", overGround(result, atLeast(objective.fadeMarginDb, [first, other])));
  if (hasStandby && objective.standbyMarginDb !== undefined)
    verdicts.set("standby-margin", result.standby!.verdict);
  else if (
    hasStandby &&
    [availabilityPercent, objective.fadeMarginDb, objective.availabilityClass, objective.quality].some(
      (one) => one !== undefined,
    )
  )
    verdicts.set("standby-level", result.standby!.verdict);
  if (capacityBps !== undefined) {
    const rates = hop.modes.map(({ bitRateBps }) => (bitRateBps ?? 0) * (facts?.workingCarriers ?? 1));
    const unknown = hop.modes.length === 0 || hop.modes.some(({ bitRateBps }) => bitRateBps === undefined);
    const carries = rates.some((rate) => rate >= capacityBps);
    verdicts.set("capacity", carries ? "met" : unknown ? "open" : "missed");
  }
  const ofLink = (method: string) =>
    result.objectives?.find((one) => one.method === method)?.verdict ?? "open";
  if (objective.availabilityClass) verdicts.set("link-availability", ofLink("link-availability"));
  if (objective.quality) verdicts.set("link-quality", ofLink("link-quality"));
  return verdicts;
}

function ofRay(criteria: readonly ClearanceCriterion[], found: readonly ClearanceResult[]): Verdict {
  const each = criteria.map(
    ({ kFactor, fresnelFraction }) =>
      found.find(
        (one) => one.kFactor === kFactor && one.requiredFraction === fresnelFraction && !one.forInformation,
      )?.verdict ?? "open",
  );
  return each.includes("missed") ? "missed" : each.includes("open") ? "open" : "met";
}

function worse(a: Verdict | undefined, b: Verdict): Verdict {
  return [a, b].includes("missed") ? "missed" : [a, b].includes("open") ? "open" : "met";
}

/** Of the lowest mode that carries what is asked, of the highest where none does, of the lowest where nothing is. */
function marginOf({ modes, objective, arrangement }: Hop, direction: DirectionResult): number | undefined {
  const count = ARRANGEMENTS.find(({ name }) => name === arrangement.name)?.workingCarriers ?? 1;
  const asked = objective?.capacityBps;
  const mode =
    asked === undefined
      ? modes[0]
      : (modes.find(({ bitRateBps = 0 }) => bitRateBps * count >= asked) ?? modes.at(-1));
  return direction.modes.find(({ modulation }) => modulation === mode?.modulation)?.fadeMarginDb;
}

/** What a level and its margin take. */
const OF_LEVELS: ReadonlySet<string> = new Set(["path", "heights", "profile", "level", "threshold"]);

/** What unknown ground would take from it, or a part that is left out, nobody knows. */
function overGround({ profile, missing }: HopResult, verdict: Verdict): Verdict {
  const leftOut = missing.some(
    ({ code, of }) =>
      [
        "channel open",
        "off path",
        "no receiver",
        "ends apart",
        "no coupler",
        "other band",
        "power not had",
      ].includes(code) ||
      (["unusable", "beyond reason"].includes(code) && of.some((step) => OF_LEVELS.has(step))),
  );
  const isKnown = profile?.highestM !== undefined && profile.gaps.length === 0 && !leftOut;
  return verdict === "met" && !isKnown ? "open" : verdict;
}

function atLeast(asked: number, found: readonly (number | undefined)[]): Verdict {
  if (found.some((one) => one !== undefined && one < asked)) return "missed";
  return found.length === 2 && found.every((one) => one !== undefined) ? "met" : "open";
}

/** What may stand for a criterion that is missed, as its cause, and for one that is open. */
const CAUSES_OF_MISSED = [
  "path-length",
  "frequency-outside-tuning",
  "clearance",
  "diversity-clearance",
  "second-antenna-clearance",
  "level-below-threshold",
  "standby-level",
  "capacity",
];
const CAUSES_OF_OPEN = [
  "path-length",
  "survey-unusable",
  "clearance",
  "obstacle-off-path",
  "both-ends-same-half",
  "end-arrangement",
  "coupler-missing",
  "coupler-wrong-kind",
  "antenna-ports-short",
  "frequency-outside-tuning",
  "antenna-out-of-band",
  "coupler-out-of-band",
  "feeder-out-of-band",
  "power-above-mode",
];

/** Where the findings on a hop do not say what its results say; empty when they agree. */
export function disagreements(hop: Hop, result: HopResult, findings: readonly Finding[]): string[] {
  const verdicts = verdictsOf(hop, result);
  const errors = findings.filter(({ severity, accepted }) => severity === "error" && !accepted);
  const isTold = (rule: string) => findings.some((one) => one.rule === rule);
  const hasError = (of: readonly string[]) => errors.some(({ rule }) => of.includes(rule));
  const required = new Set((hop.policy?.statements ?? []).flatMap((one) => (one.required ? one.rule : [])));
  const notJudged = findings.filter(({ rule }) => rule === "not-judged");
  const open = [...verdicts].flatMap(([rule, verdict]) => (verdict === "open" ? rule : []));
  const wrong: string[] = [];
  for (const [rule, verdict] of verdicts) {
    if (verdict === "missed" && !isTold(rule) && !hasError(CAUSES_OF_MISSED))
      wrong.push(`${rule} is missed, and nothing says so`);
  }
  if (notJudged.length > 1) wrong.push("not-judged is told twice");
  const listed = new Set(notJudged.flatMap((one) => one.notJudged ?? []));
  for (const rule of listed)
    if (!open.includes(rule)) wrong.push(`${rule} is ${verdicts.get(rule) ?? "not asked"}, and told as open`);
  // What is stated and cannot be used the text tells.
  const byText = result.missing.some(({ told }) => told);
  if (!byText && !hasError(CAUSES_OF_OPEN))
    for (const rule of open)
      if (!listed.has(rule)) wrong.push(`${rule} is open, and not-judged leaves it out`);
  for (const { severity, accepted, message } of notJudged) {
    if (severity !== "error" && !accepted) wrong.push(`not-judged is a mere ${severity}`);
    if (/: *$|: ;/.test(message)) wrong.push(`not-judged does not say for want of what: ${message}`);
  }
  for (const { rule, severity, accepted } of findings) {
    if (!verdicts.has(rule)) continue;
    if (verdicts.get(rule) !== "missed") wrong.push(`${rule} is ${verdicts.get(rule)}, and found`);
    if (severity !== "error" && !accepted) wrong.push(`${rule} is missed, and a mere ${severity}`);
  }
  for (const { rule, accepted, notJudged: without = [] } of findings)
    if (accepted && [rule, ...without].some((one) => required.has(one)))
      wrong.push(`${rule} is required, and accepted`);
  return wrong;
}
