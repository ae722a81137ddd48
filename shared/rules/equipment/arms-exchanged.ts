import { address } from "../../design/address.js";
import type { Hop, HopEnd } from "../../design/design.js";
import type { Fix } from "../../design/fact-change.js";
import { armLossDb } from "../../equipment/branch-loss.js";
import type { Branch } from "../../equipment/branches.js";
import { branchesAt, standsOf } from "../../equipment/stands.js";
import { decibels } from "../../format/numbers.js";
import { factsAt } from "../../radio/arrangement-pairs.js";
import type { ArrangementFacts } from "../../radio/arrangements.js";
import { exampleHop } from "../example-preamble.js";
import { decision, endHere, type Mending } from "../fixes/mending.js";
import type { HopRule } from "../rule.js";

const standby = (coupler: string) =>
  exampleHop({
    hop: "polarization vertical\n  radio R18\n  mode 55 MHz 128QAM\n  arrangement 1+1 hot-standby",
    keld: `antenna DISH60-18 at 40 m\n    coupler ${coupler} direct\n    transmits high\n    arms exchanged`,
    tarn: `antenna DISH60-18 at 40 m\n    coupler ${coupler} direct\n    transmits low`,
  });

export const armsExchanged: HopRule = {
  scope: "hop",
  id: "arms-exchanged",
  severity: "warning",
  title: "Units on each other's arms cost level in the normal state",
  checks:
    "At ends with `arms exchanged`, the loss of the arms that the working units are on against that of the others. Carriers that share a coupler are crossed at one end by themselves: exchanged at one end, they stand on like arms at both.",
  why: "The unequal coupler was bought so that the normal state loses little. With main and standby exchanged it is the normal state that loses much, and the standby that loses little.",
  fix: "Exchange the units; or accept it where it is meant.",
  source: "common practice",
  needs: [],
  restsOn: ["arrangement", "coupler"],
  fixes: unitsBack,
  good: standby("H18-E"),
  bad: standby("H18-U"),
  check({ hop, report }) {
    for (const end of hop.ends) {
      const facts = factsAt(hop, end);
      if (facts === undefined || !end.armsExchanged) continue;
      const message = messageFor(hop, end, facts);
      if (message) report({ at: address("hop", hop.name, end.site.name, "arms"), message });
    }
  },
};

/** Nobody measures less. */
const LEAST_DB = 0.05;

function messageFor(hop: Hop, end: HopEnd, facts: ArrangementFacts): string | undefined {
  const { name } = end.site;
  const { lossesDb, isExchanged } = exchange(end, facts);
  if (!isExchanged) return `there are no main and standby arms to exchange at ${name}`;
  if (facts.hotStandby) {
    const lostDb = Math.max(...lossesDb);
    return lostDb < LEAST_DB
      ? undefined
      : `main and standby are on each other's arms at ${name}: in the normal state the hop loses ${decibels(lostDb)} more there`;
  }
  const far = hop.ends.find((one) => one !== end)!;
  if (far.armsExchanged) return undefined;
  const apartDb = spreadDb(lossesDb) + spreadDb(exchange(far, factsAt(hop, far) ?? facts).lossesDb);
  return apartDb < LEAST_DB
    ? undefined
    : `with the arms exchanged at ${name} carriers stand on like arms at both ends: one loses ${decibels(apartDb)} more than another`;
}

/** By how much the arm of each working unit loses more than the other arm would; 0 where a figure is not known. */
function exchange(end: HopEnd, facts: ArrangementFacts) {
  const stands = standsOf(end, facts);
  const usual = branchesAt({ ...end, armsExchanged: undefined }, facts);
  const now = branchesAt({ ...end, armsExchanged: true }, facts);
  const lossDb = (branch: Branch) => {
    const coupler = stands[branch.antenna - 1]?.coupler;
    return coupler && armLossDb(coupler, branch, "receive");
  };
  const lossesDb = now.flatMap((branch, index) => {
    if (facts.hotStandby && index % 2 === 1) return [];
    const [nowDb, usualDb] = [lossDb(branch), lossDb(usual[index]!)];
    return nowDb === undefined || usualDb === undefined ? [] : [nowDb - usualDb];
  });
  return { lossesDb: [0, ...lossesDb], isExchanged: now.some(({ arm }, index) => arm !== usual[index]!.arm) };
}

/** One carrier gains what the other loses: what they differ by is half of the difference of both changes. */
function spreadDb(changesDb: readonly number[]): number {
  return (Math.max(...changesDb) - Math.min(...changesDb)) / 2;
}

/** Each unit on the arm that it has by itself. */
function unitsBack(mending: Mending): readonly Fix[] {
  const here = endHere(mending);
  if (!here) return [];
  const title = `Put the units at ${here.site} on their own arms (changes the equipment)`;
  return [decision(title, { do: "remove", at: mending.finding.at })];
}
