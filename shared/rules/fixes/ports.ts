/** What is proposed at a site, written down: slots of cards, ports of units and services, fuses of feeds. */
import { address, nth } from "../../design/address.js";
import type { FactChange } from "../../design/fact-change.js";
import { branchesOf } from "../../equipment/branches.js";
import type { SitePlan } from "../../equipment/site-plan.js";
import { serviceId } from "../../equipment/wiring/ids.js";
import { siteWiring } from "../../equipment/wiring/site-wiring.js";
import { portKey } from "../../equipment/wiring/wiring.js";

/** IF ports that were assigned to the units, a change for each end that leaves some open. */
export function ifPortLines(plan: SitePlan): FactChange[] {
  const open = Map.groupBy(
    plan.ifPorts.uses.filter(({ automatic }) => automatic),
    ({ hop }) => hop,
  );
  return plan.ends.flatMap(({ hop, facts }): FactChange[] => {
    const own = open.get(hop.name) ?? [];
    if (own.length === 0 || facts === undefined) return [];
    // Stated ports are those of the first units: the others follow in their order.
    const lines = branchesOf(facts).flatMap(({ name }) => {
      const use = own.find(({ branch }) => branch === name);
      if (use === undefined) return [];
      const { chassis, slot } = use.card;
      return `if-port ${slot} / ${use.port}${inChassis(plan, chassis.name)}`;
    });
    return [{ do: "add", in: address("hop", hop.name, plan.site.name), lines }];
  });
}

/** Ports that are proposed for services, behind those that are stated. */
export function servicePortLines(plan: SitePlan): FactChange[] {
  const wiring = siteWiring(plan);
  const joints = new Map(wiring.joints.map((joint) => [portKey(joint.ends[0]), joint]));
  return (plan.equipment?.services ?? []).flatMap(({ count }, index): FactChange[] => {
    const lines: string[] = [];
    // Stated ports are those of the first: one that has none, or one of the chassis itself, ends them.
    for (let port = 1; port <= count; port++) {
      const joint = joints.get(portKey({ part: serviceId(index), port: String(port) }));
      if (joint === undefined) break;
      // Behind a panel it is the card's port that is stated.
      const [, to] = joint.ends;
      const behind = joints.get(portKey({ ...to, port: innerPort(to.port) }));
      const [, far] = (behind ?? joint).ends;
      const place = wiring.parts.get(far.part)?.place;
      if (place?.slot === undefined) break;
      if (joint.proposed) lines.push(`port ${place.slot} / ${far.port}${inChassis(plan, place.chassis)}`);
    }
    const at = address("site", plan.site.name, nth("service", index));
    return lines.length === 0 ? [] : [{ do: "add", in: at, lines }];
  });
}

/** Fuses that are proposed for power cards and units. */
export function feedLines(plan: SitePlan): FactChange[] {
  const wiring = siteWiring(plan);
  const lines = wiring.joints.flatMap(({ by, ends: [, inlet], proposed }) => {
    const { place, of } = wiring.parts.get(inlet.part) ?? {};
    if (by.kind !== "fuse" || !proposed) return [];
    if (of !== undefined) return `feed ${by.feed} fuse ${by.fuse} to ${of.hop}`;
    if (place === undefined) return [];
    const slot = place.slot === undefined ? "" : ` slot ${place.slot}`;
    return `feed ${by.feed} fuse ${by.fuse}${slot}${inChassis(plan, place.chassis)}`;
  });
  return lines.length === 0 ? [] : [{ do: "add", in: address("site", plan.site.name), lines }];
}

/**
 * A line for each slot in the place of the line that leaves its card loose.
 * @returns undefined where two lines name one card: nobody can tell which is which
 */
export function slotLines(plan: SitePlan): FactChange[] | undefined {
  const changes: FactChange[] = [];
  for (const [index, installed] of (plan.equipment?.chassis ?? []).entries()) {
    const names = installed.loose.map(({ card }) => card.name);
    if (new Set(names).size < names.length) return undefined;
    const at = address("site", plan.site.name, nth("chassis", index));
    const placed = plan.placed.cards.filter(({ chassis, automatic }) => chassis === installed && automatic);
    for (const { card, count } of installed.loose) {
      const own = placed.filter((one) => one.card === card).map(({ slot }) => `slot ${slot} ${card.name}`);
      // One that finds no slot stays loose, and a rule tells it.
      if (own.length < count) continue;
      const where = { argument: "card", is: card.name };
      const [first = "", ...rest] = own.toSorted();
      changes.push({ do: "state", in: at, line: first, instead: ["card"], where, bare: true });
      if (rest.length > 0) changes.push({ do: "add", in: at, lines: rest });
    }
  }
  return changes;
}

/** Of a pair of a panel the port to the card; any other port is none. */
function innerPort(port: string): string {
  return port.replace(/ out$/, " in");
}

/** The first chassis is meant where none is named. */
function inChassis({ equipment }: SitePlan, name: string): string {
  return name === equipment?.chassis[0]?.name ? "" : ` in ${name}`;
}
