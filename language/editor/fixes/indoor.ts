/** Fixes about what stands in the rack: slots, controllers, ports and alarm inputs. */
import type { Chassis, InstalledChassis } from "../../../shared/design/equipment.js";
import { slotKindOf } from "../../../shared/equipment/placement.js";
import { sitePlans } from "../../../shared/equipment/site-plan.js";
import { argument, type Fact, factsNamed, numberOf, wordOf } from "../../facts/fact.js";
import type { DesignModel } from "../../model/design-model.js";
import type { QuickFix, ToMend } from "../quick-fixes.js";
import type { TextEdit } from "../text-range.js";
import { endInText, hopOf, insertLine, removeFact, replaceArgument } from "./edits.js";

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

/** One more controller: of the kind that the chassis has, else each of the catalogue. */
export function addController({ model, finding }: ToMend): readonly QuickFix[] {
  const found = chassisAt(model, finding.at);
  if (!found) return [];
  const { installed, file, fact } = found;
  const own = [...installed.slots.map(({ card }) => card), ...installed.loose.map(({ card }) => card)].find(
    (card) => card?.kind === "controller",
  );
  const names = own
    ? [own.name]
    : model.names("card").filter((name) => model.lookup.card(name)?.kind === "controller");
  return names.flatMap((name): QuickFix[] => {
    const loose = factsNamed(fact.facts, "card").find((one) => wordOf(one, "card") === name);
    const edit = loose
      ? {
          file,
          start: loose.statement.start,
          end: loose.statement.end,
          newText: `card ${name} ${(numberOf(loose, "count") ?? 1) + 1}`,
        }
      : insertLine(model, { file, fact, context: "site chassis" }, "card", `card ${name}`);
    return edit ? [decision(finding.rule, `Add controller ${name} (changes the equipment)`, [edit])] : [];
  });
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

/** Gives an alarm the first input that no other has. */
export function otherInput({ model, finding }: ToMend): readonly QuickFix[] {
  const site = siteAt(model, finding.at);
  const arg = argument(site && nthFact(site.fact.facts, "alarm", finding.at), "input");
  if (!site || !arg) return [];
  const plan = sitePlans(model.design()).get(site.name);
  const inputs = (plan?.placed.cards ?? [])
    .flatMap(({ card }) => card.ports)
    .reduce((sum, { count, type }) => sum + (type === "alarm-in" ? count : 0), 0);
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
  const entry = at.startsWith("site ") ? model.declarations(at.split(" / ")[0]!)[0] : undefined;
  return entry && { name: entry.name, file: entry.file, fact: entry.fact };
}

/** The chassis that an address lies in, in the text and resolved. */
function chassisAt(
  model: DesignModel,
  at: string,
): { readonly file: string; readonly fact: Fact; readonly installed: InstalledChassis } | undefined {
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
