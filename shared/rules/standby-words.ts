/** What the rules of standby say alike. */
import { type Address, address } from "../design/address.js";
import type { Hop } from "../design/design.js";
import { standsOf } from "../equipment/stands.js";
import type { StandbyResult } from "../evaluate/account/level-result.js";
import { decibels } from "../format/numbers.js";
import { factsAt } from "../radio/arrangement-pairs.js";

type Weakest = NonNullable<StandbyResult["weakest"]>;

/** For example `with both ends on standby`; an end whose standby unit has an antenna of its own says so. */
export function standbyWords(hop: Hop, { state, from, to }: Weakest): string {
  const [sender, receiver] = [placeAt(hop, from), placeAt(hop, to)];
  if (state === "receiver on standby") return `with the receiver on ${receiver}`;
  if (state === "sender on standby") return `with the sender on ${sender}`;
  if (sender !== receiver) return `with the sender on ${sender} and the receiver on ${receiver}`;
  return `with both ends on ${sender === "standby" ? sender : `${sender.replace("the ", "their ")}s`}`;
}

function placeAt(hop: Hop, site: string): string {
  const end = hop.ends.find((one) => one.site.name === site);
  const facts = end && factsAt(hop, end);
  const further = facts && end ? standsOf(end, facts)[1] : undefined;
  if (further?.antenna === undefined) return "standby";
  return `the ${facts?.protection === "space-diversity" ? "diversity" : "second"} antenna`;
}

/** The coupler or antenna at the end whose unit has switched; of both the receiver's. */
export function standbyAddress(hop: Hop, { state, from, to }: Weakest): Address {
  const site = state === "sender on standby" ? from : to;
  const end = hop.ends.find((one) => one.site.name === site);
  const facts = end && factsAt(hop, end);
  const further = facts && end ? standsOf(end, facts)[1] : undefined;
  return address("hop", hop.name, site, further?.antenna === undefined ? "coupler" : further.fact);
}

export function standbyHelp({ lessThanNormalDb }: Weakest): string | undefined {
  return lessThanNormalDb > 0.05
    ? `That is ${decibels(lessThanNormalDb)} less than between the main units.`
    : undefined;
}

/** Whether an obstructed ray was told already, without which the margin would be there. */
export function obstructionTold(
  has: (rule: string) => boolean,
  { fadeMarginDb, diffractionDb = 0 }: Weakest,
  askedDb: number,
): boolean {
  const told = has("clearance") || has("diversity-clearance") || has("second-antenna-clearance");
  return told && diffractionDb > 0 && fadeMarginDb + diffractionDb >= askedDb;
}
