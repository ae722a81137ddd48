/** What a hop, a site or a demand accepts on purpose: findings that it excuses, and what is wrong with the acceptances themselves. */

import type { Acceptance } from "../design/acceptance.js";
import { address, nth } from "../design/address.js";
import type { Design, Hop, Policy } from "../design/design.js";
import type { Finding } from "../design/finding.js";
import { acceptanceExpired } from "./acceptance-expired.js";
import { acceptanceReason, REASON_TO_WRITE } from "./acceptance-reason.js";
import { acceptanceUnknown } from "./acceptance-unknown.js";
import { acceptanceUnused } from "./acceptance-unused.js";
import { RULES } from "./index.js";
import { didYouMean } from "./meant.js";
import { requiredRule } from "./policy.js";
import { requiredAccepted } from "./required-accepted.js";
import { finding } from "./rule.js";

/** Who accepts. A finding is accepted where it stands: on its hop, at the site that it speaks of alone, or in the demand. */
export interface Accepting {
  readonly kind: "hop" | "site" | "demand";
  /** For example `site KELD`. */
  readonly at: string;
  readonly accepts: readonly Acceptance[];
  readonly policy?: Policy;
}

export function acceptingHop({ name, accepts, policy }: Pick<Hop, "name" | "accepts" | "policy">): Accepting {
  return { kind: "hop", at: address("hop", name), accepts, policy };
}

/** Sites and demands, by the first step of their addresses. */
export function acceptingOthers({ acceptedAt, demands, policy }: Design): ReadonlyMap<string, Accepting> {
  const all = new Map<string, Accepting>();
  const add = (kind: "site" | "demand", name: string, accepts: readonly Acceptance[]) => {
    const at = address(kind, name);
    if (accepts.length > 0) all.set(at, { kind, at, accepts, policy });
  };
  for (const [name, accepts] of acceptedAt ?? []) add("site", name, accepts);
  for (const { name, accepts } of demands?.values() ?? []) add("demand", name, accepts);
  return all;
}

/** An accepted finding stays visible, as information with the reason beside it. */
export function accepted({ accepts, policy }: Accepting, found: Finding, today: string): Finding {
  if (requiredRule(found, policy) !== undefined) return found;
  const acceptance = accepts.find(
    (accept) => accept.rule === found.rule && !isExpired(accept, today) && !isBlank(accept),
  );
  if (acceptance === undefined) return found;
  return { ...found, severity: "info", accepted: { reason: acceptance.reason, until: acceptance.until } };
}

/** What is wrong with the acceptances that speak of rules of one scope; a hop's unknown rules are told with the hop. */
export function judgeAcceptances(
  { kind, at: place, accepts, policy }: Accepting,
  found: readonly Finding[],
  scope: "hop" | "network",
  today: string,
  passedOver: ReadonlySet<string> = new Set(),
): Finding[] {
  return accepts.flatMap((accept, index): Finding[] => {
    const at = `${place} / ${nth("accept", index)}`;
    const rule = RULES.get(accept.rule);
    if (rule === undefined || rule.scope === "acceptance") {
      if (scope !== kindScope(kind)) return [];
      const message = rule
        ? `${accept.rule} cannot be accepted`
        : `there is no rule ${accept.rule} to accept${didYouMean(accept.rule)}`;
      return [finding(acceptanceUnknown, { at, message })];
    }
    if (kind !== "hop" && rule.scope === "hop") {
      const message = `${accept.rule} judges a hop, so it is accepted on the hop, not ${kind === "site" ? "at a site" : "in a demand"}`;
      return [finding(acceptanceUnknown, { at, message, help: "Move the line to the hop." })];
    }
    if (rule.scope !== scope) return [];
    if (isBlank(accept)) {
      const message = `the acceptance of ${accept.rule} gives no reason, so it excuses nothing`;
      return [finding(acceptanceReason, { at, message, help: "Write why the finding may stand." })];
    }
    const concerning = found.filter((one) => one.rule === accept.rule);
    const concerned = concerning.length > 0;
    // Of a rule that could not be judged nobody knows whether its acceptance is still needed.
    if (!concerned && passedOver.has(accept.rule)) return [];
    if (!concerned) {
      const message = `accepts ${accept.rule}, which finds nothing ${HERE[kind]}`;
      return [finding(acceptanceUnused, { at, message, help: "Remove the line." })];
    }
    const required = concerning.map((one) => requiredRule(one, policy)).find((one) => one !== undefined);
    if (required !== undefined) {
      const what = required === accept.rule ? "so it" : "so that it is not judged";
      const message = `the design requires ${required} of every ${kind}, ${what} cannot be accepted`;
      return [finding(requiredAccepted, { at, message, help: "Mend the cause and remove the line." })];
    }
    if (!isExpired(accept, today)) return lacksReason(accept, at);
    const reason = accept.reason === undefined ? "" : ` ("${accept.reason}")`;
    const message = `the acceptance of ${accept.rule}${reason} ended on ${accept.until}`;
    return [finding(acceptanceExpired, { at, message, help: "Mend the cause or agree on a new date." })];
  });
}

const HERE: Readonly<Record<Accepting["kind"], string>> = {
  hop: "on this hop",
  site: "at this site",
  demand: "in this demand",
};

/** With which judgement unknown rules are told, so that they are told once. */
function kindScope(kind: Accepting["kind"]): "hop" | "network" {
  return kind === "hop" ? "hop" : "network";
}

/** A reason has letters or figures: signs that are not seen, or a dash, give none. */
function isBlank({ reason }: Acceptance): boolean {
  return reason !== undefined && !/[\p{L}\p{N}]/u.test(reason);
}

/** What a quick fix wrote in place of a reason excuses for the moment, and is told. */
function lacksReason({ rule, reason }: Acceptance, at: string): Finding[] {
  if (reason?.trim() !== REASON_TO_WRITE) return [];
  const message = `the reason for accepting ${rule} is still to be written`;
  return [finding(acceptanceReason, { at, message, severity: "warning" })];
}

/** The last day itself still counts. ISO dates compare as text. */
function isExpired(accept: Acceptance, today: string): boolean {
  return accept.until !== undefined && accept.until < today;
}
