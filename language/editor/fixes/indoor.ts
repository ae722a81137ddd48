/** Fixes about what stands in the rack: slots, controllers, ports and alarm inputs. */
import type { Card, Chassis, InstalledChassis, PortType } from "../../../shared/design/equipment.js";
import { branchesOf } from "../../../shared/equipment/branches.js";
import { slotKindOf } from "../../../shared/equipment/placement.js";
import { portsThere } from "../../../shared/equipment/ports.js";
import { sitePlans } from "../../../shared/equipment/site-plan.js";
import { argument, type Fact, factsNamed, numberOf, wordOf } from "../../facts/fact.js";
import type { DesignModel } from "../../model/design-model.js";
import type { TextEdit } from "../text-range.js";
import { endInText, hopOf, insertLine, insertLines, removeFact, replaceArgument } from "./edits.js";
import type { QuickFix, ToMend } from "./fix.js";

/** Puts a card into the first slot that takes it and is not stated for another. */
export function otherSlot({ model, finding }: ToMend): readonly QuickFix[] {
  const found = chassisAt(model, finding.at);
  const slot = found && nthFact(found.fact.facts, "slot", finding.at);
  const arg = argument(slot, "number");
  const card = slot && model.lookup.card(wordOf(slot, "card") ?? "");
  const chassis = found?.installed.chassis;
  if (!found || !arg || !card || !chassis) return [];
  const taken = new Set(found.installed.slots.map((one) => one.slot));
  const free = slotsOf(chassis, slotKindOf(card)).find((one) => !taken.has(one));
  if (free === undefined) return [];
  return [
    decision(finding.rule, `Put ${card.name} into slot ${free}`, [
      replaceArgument(found.file, arg, String(free)),
    ]),
  ];
}

/** One more controller: of the kind that the chassis has before the others of the catalogue. */
export function addController({ model, finding }: ToMend): readonly QuickFix[] {
  const found = chassisAt(model, finding.at);
  if (!found) return [];
  return cardsLike(model, [found.installed], ({ kind }) => kind === "controller").flatMap((card) =>
    addCards(model, found, card, 1, finding.rule),
  );
}

/** As many IF cards as the hop lacks ports for. */
export function addIfCards({ model, finding }: ToMend): readonly QuickFix[] {
  const hop = hopOf(finding.at);
  const site = finding.at.split(" / ")[1];
  const plan = site === undefined ? undefined : sitePlans(model.design()).get(site);
  const missing = plan?.ifPorts.short.find((one) => one.hop === hop)?.missing ?? 0;
  if (site === undefined || missing === 0) return [];
  return addToSite(model, site, finding.rule, (card) => Math.ceil(missing / portsOf(card, "IF")));
}

/** One more card with ports for traffic: the trial tells which has the kind that is short. */
export function addTrafficCard({ model, finding }: ToMend): readonly QuickFix[] {
  const site = siteAt(model, finding.at)?.name;
  if (site === undefined) return [];
  const carries = (card: Card) => TRAFFIC.some((type) => portsOf(card, type) > 0);
  return addToSite(model, site, finding.rule, (card) => (carries(card) ? 1 : Number.POSITIVE_INFINITY));
}

/** A card that aggregates the two bands of a pair. */
export function addAggregation({ model, finding }: ToMend): readonly QuickFix[] {
  const site = finding.at.split(" / ")[1];
  if (site === undefined) return [];
  return addToSite(model, site, finding.rule, ({ kind }) =>
    kind === "aggregation" ? 1 : Number.POSITIVE_INFINITY,
  );
}

/** A card with a clock port. */
export function addClock({ model, finding }: ToMend): readonly QuickFix[] {
  const site = siteAt(model, finding.at)?.name;
  if (site === undefined) return [];
  return addToSite(model, site, finding.rule, (card) =>
    portsOf(card, "sync") > 0 ? 1 : Number.POSITIVE_INFINITY,
  );
}

const TRAFFIC: readonly PortType[] = [
  "FE",
  "GE",
  "2.5GE",
  "10GE",
  "E1-75",
  "E1-120",
  "STM-1-electrical",
  "STM-1-optical",
];

/** @param countOf how many of a card would do; not finite: none would */
function addToSite(
  model: DesignModel,
  site: string,
  rule: string,
  countOf: (card: Card) => number,
): readonly QuickFix[] {
  const chassis = model.lookup.equipment(site)?.chassis ?? [];
  const found = chassisAt(model, `site ${site}`);
  if (!found) return [];
  return cardsLike(model, chassis, (card) => Number.isFinite(countOf(card))).flatMap((card) =>
    addCards(model, found, card, countOf(card), rule),
  );
}

/** Cards of a kind: those that the chassis have already before the others of the catalogue. */
function cardsLike(
  model: DesignModel,
  chassis: readonly InstalledChassis[],
  wanted: (card: Card) => boolean,
): readonly Card[] {
  const there = chassis.flatMap(({ slots, loose }) => [
    ...slots.flatMap(({ card }) => card ?? []),
    ...loose.map(({ card }) => card),
  ]);
  const own = [...new Map(there.filter(wanted).map((card) => [card.name, card])).values()];
  const others = model.names("card").flatMap((name) => {
    const card = model.declarations(`card ${name}`)[0]?.template ? undefined : model.lookup.card(name);
    return card && wanted(card) && !own.includes(card) ? [card] : [];
  });
  return [...own, ...others];
}

/** Counts up the line of the card where it has one, else writes one. */
function addCards(
  model: DesignModel,
  { file, fact }: ChassisInText,
  { name }: Card,
  count: number,
  rule: string,
): QuickFix[] {
  const loose = factsNamed(fact.facts, "card").find((one) => wordOf(one, "card") === name);
  const line = (total: number) => `card ${name}${total > 1 ? ` ${total}` : ""}`;
  const edit = loose
    ? {
        file,
        start: loose.statement.start,
        end: loose.statement.end,
        newText: line((numberOf(loose, "count") ?? 1) + count),
      }
    : insertLine(model, { file, fact, context: "site chassis" }, "card", line(count));
  const title = `Add ${count > 1 ? `${count} cards` : "card"} ${name} (changes the equipment)`;
  return edit ? [decision(rule, title, [edit])] : [];
}

function portsOf({ ports }: Card, wanted: PortType): number {
  return ports.reduce((sum, { count, type }) => sum + (type === wanted ? count : 0), 0);
}

/** Leaves the port of a unit to be chosen. */
export function removePort({ model, finding }: ToMend): readonly QuickFix[] {
  const hop = hopOf(finding.at);
  const site = finding.at.split(" / ")[1];
  const end = hop !== undefined && site !== undefined ? endInText(model, hop, site) : undefined;
  const fact = end && nthFact(end.fact.facts, "if-port", finding.at);
  const edit = end && fact && removeFact(model, end.file, fact);
  return edit
    ? [decision(finding.rule, `Leave this port at ${site} to be chosen (removes the stated one)`, [edit])]
    : [];
}

/** States the ports that were assigned to the units at a site, so that they stay. */
export function writePortsDown({ model, finding }: ToMend): readonly QuickFix[] {
  const site = siteAt(model, finding.at)?.name;
  const plan = site === undefined ? undefined : sitePlans(model.design()).get(site);
  if (site === undefined || plan === undefined) return [];
  const first = plan.placed.cards[0]?.chassis.name;
  const open = Map.groupBy(
    plan.ifPorts.uses.filter(({ automatic }) => automatic),
    ({ hop }) => hop,
  );
  const edits = plan.ends.flatMap(({ hop, facts }) => {
    const own = open.get(hop.name) ?? [];
    const end = endInText(model, hop.name, site);
    if (own.length === 0 || facts === undefined || end === undefined) return [];
    // Stated ports are those of the first units: the others follow in their order.
    const lines = branchesOf(facts).flatMap(({ name }) => {
      const use = own.find(({ branch }) => branch === name);
      if (use === undefined) return [];
      const { chassis, slot } = use.card;
      return `if-port ${slot} / ${use.port}${chassis.name === first ? "" : ` in ${chassis.name}`}`;
    });
    return insertLines(model, end, "if-port", lines) ?? [];
  });
  if (edits.length < open.size) return [];
  const hops = open.size === 1 ? "one hop" : `${open.size} hops`;
  return [decision(finding.rule, `Write the IF ports at ${site} down (in ${hops})`, edits)];
}

/** Gives an alarm the first input that no other has. */
export function otherInput({ model, finding }: ToMend): readonly QuickFix[] {
  const site = siteAt(model, finding.at);
  const arg = argument(site && nthFact(site.fact.facts, "alarm", finding.at), "input");
  if (!site || !arg) return [];
  const plan = sitePlans(model.design()).get(site.name);
  const inputs = plan ? (portsThere(plan).get("alarm-in") ?? 0) : 0;
  const taken = new Set(plan?.equipment?.alarms.map(({ input }) => input));
  const free = Array.from({ length: inputs }, (_, index) => index + 1).find((input) => !taken.has(input));
  if (free === undefined) return [];
  return [
    decision(finding.rule, `Give this alarm input ${free}`, [replaceArgument(site.file, arg, String(free))]),
  ];
}

function decision(rule: string, title: string, edits: readonly TextEdit[]): QuickFix {
  return { title, edits, rule, changesDecision: true };
}

function siteAt(model: DesignModel, at: string) {
  const entry = at.startsWith("site ") ? model.standing(at.split(" / ")[0]!)[0] : undefined;
  return entry && { name: entry.name, file: entry.file, fact: entry.fact };
}

interface ChassisInText {
  readonly file: string;
  readonly fact: Fact;
  readonly installed: InstalledChassis;
}

/** The chassis that an address lies in, the first of its site where it names none. */
function chassisAt(model: DesignModel, at: string): ChassisInText | undefined {
  const site = siteAt(model, at);
  const index = indexIn(at, "chassis");
  const fact = site && factsNamed(site.fact.facts, "chassis")[index];
  const installed = site && model.lookup.equipment(site.name)?.chassis[index];
  return fact && installed && { file: site.file, fact, installed };
}

/** The fact of that name which the address names by its number. */
function nthFact(facts: readonly Fact[], name: string, at: string): Fact | undefined {
  return factsNamed(facts, name)[indexIn(at, name)];
}

function indexIn(at: string, name: string): number {
  const step = at.split(" / ").find((one) => one === name || one.startsWith(`${name}#`));
  return Number(step?.split("#")[1] ?? 0);
}

function slotsOf(chassis: Chassis, wanted: string): number[] {
  return chassis.slots.flatMap(({ from, to, kind }) =>
    kind === wanted ? Array.from({ length: to - from + 1 }, (_, index) => from + index) : [],
  );
}
