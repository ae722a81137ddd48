/** Which card stands in which slot of a site, which port serves which unit, and what of its ports is left. */

import type { Card } from "../design/equipment.js";
import { chassisName } from "../equipment/chassis-name.js";
import type { PlacedCard } from "../equipment/placement.js";
import { slotCountOf, slotKindOf, slotNumbers } from "../equipment/placement.js";
import { portsThere } from "../equipment/ports.js";
import type { SitePlan } from "../equipment/site-plan.js";
import { portPlan } from "../equipment/wiring/port-plan.js";
import { siteWiring } from "../equipment/wiring/site-wiring.js";
import { type Explanation, explanation } from "./explanation.js";

export function placesOf(plan: SitePlan): Explanation[] {
  return [...slotsOf(plan), ...ifPortsOf(plan), ...portsOf(plan)];
}

function slotsOf(plan: SitePlan): Explanation[] {
  const { site, equipment, placed } = plan;
  return (equipment?.chassis ?? []).map((installed) => {
    const cards = placed.cards
      .filter(({ chassis }) => chassis === installed)
      .toSorted((a, b) => a.slot - b.slot);
    const left = placed.left.filter(({ chassis }) => chassis === installed);
    const there = installed.chassis?.slots.reduce((sum, { from, to }) => sum + to - from + 1, 0);
    const of = there === undefined ? "" : ` of ${there}`;
    return explanation(
      `slots of ${chassisName(installed, plan)} at ${site.name}`,
      `${cards.reduce((sum, { card }) => sum + slotCountOf(card), 0)}${of} taken`,
      {
        methods: ["card-slots"],
        steps: [
          ...cards.map((one) => ({
            name: `${slotCountOf(one.card) === 1 ? "slot" : "slots"} ${slotNumbers(one)}`,
            value: `${one.card.name}, ${why(one)}`,
          })),
          ...left.map(({ card, count }) => ({
            name: `no slot for ${card.name}`,
            value: `${count}, ${roomWords(card)}`,
          })),
        ],
      },
    );
  });
}

function roomWords(card: Card): string {
  const count = slotCountOf(card);
  const kind = slotKindOf(card);
  return count === 1
    ? `no free ${kind} slot is left`
    : `no ${count} free ${kind} slots beside each other are left`;
}

function why({ automatic, card }: PlacedCard): string {
  if (!automatic) return "stated";
  if (slotCountOf(card) > 1)
    return `left open: the shortest run of free ${slotKindOf(card)} slots that holds it, before narrower cards`;
  const pair = card.pairs === "neighbour" ? ", beside its like where there is room" : "";
  return `left open: the first free ${slotKindOf(card)} slot from a place drawn from its name${pair}`;
}

function ifPortsOf(plan: SitePlan): Explanation[] {
  const { site, ifPorts, ends } = plan;
  const needed = ends.reduce((sum, { facts }) => sum + (facts?.ifCables ?? 0), 0);
  const { uses, short, ports, search } = ifPorts;
  if (ports === 0 && uses.length === 0) return [];
  return [
    explanation(`IF ports at ${site.name}`, `${uses.length} of ${ports} serve units, ${needed} are needed`, {
      methods: ["if-ports"],
      steps: [
        ...uses.map(({ hop, branch, card, port, automatic }) => ({
          name: branch === "only" ? `unit of ${hop}` : `unit of ${hop}, ${branch}`,
          value: `port ${port} of ${card.card.name} in slot ${card.slot} of ${chassisName(card.chassis, plan)}, ${automatic ? "proposed" : "stated"}`,
        })),
        ...short.map(({ hop, missing, needed: own }) => ({
          name: `lacking for ${hop}`,
          value: `${missing} of ${own}`,
        })),
      ],
      notes: search === undefined ? [] : [{ code: "ports-searched", search }],
    }),
  ];
}

/** By kind; the list of ports names each with what is on it. */
function portsOf(plan: SitePlan): Explanation[] {
  const there = portsThere(plan);
  if (there.size === 0) return [];
  const rows = portPlan(siteWiring(plan)).filter(
    ({ part }) => part.kind === "chassis" || part.kind === "card",
  );
  const used = new Map<string, number>();
  for (const { port, joined } of rows) if (joined) used.set(port.type, (used.get(port.type) ?? 0) + 1);
  const lacking = siteWiring(plan).loose.filter(({ lacks }) => lacks.endsWith("port")).length;
  const all = [...there.values()].reduce((sum, count) => sum + count, 0);
  const taken = [...there.keys()].reduce((sum, type) => sum + (used.get(type) ?? 0), 0);
  return [
    explanation(
      `ports of ${plan.site.name}`,
      `${taken} of ${all} used${lacking === 0 ? "" : `, ${lacking} lacking`}`,
      {
        steps: [...there].map(([type, count]) => ({
          name: `ports ${type}`,
          value: `${used.get(type) ?? 0} of ${count} used`,
        })),
      },
    ),
  ];
}
