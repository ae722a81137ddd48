/** What to order and where it goes: parts of the network with spares, then site by site with slots, ports and loads. */
import type { Design } from "../../design/design.js";
import { batteryAutonomy } from "../../equipment/battery.js";
import { type Part, partsOfNetwork, partsOfSite, spareParts } from "../../equipment/parts-list.js";
import { slotNumbers } from "../../equipment/placement.js";
import { siteLoad } from "../../equipment/power.js";
import { type SitePlan, sitePlans } from "../../equipment/site-plan.js";
import { structureLoad } from "../../equipment/structure-load.js";
import { unlistedParts } from "../../equipment/unlisted-parts.js";
import { trimmed } from "../../format/numbers.js";
import { branchName } from "../../words/wiring.js";
import type { Block, Fact, Page, Section, Table } from "../document/document.js";
import { partWords, quantity } from "./hop-equipment.js";

export interface PartsPageInput {
  readonly name: string;
  readonly design: Design;
  /** What of it has to be ordered and licensed, where some of it is built. */
  readonly planned?: readonly Section[];
  /** Page of a site, where there is one. */
  readonly sitePage?: (site: string) => string | undefined;
  readonly up?: { readonly text: string; readonly page: string };
  readonly colophon: string;
}

export function partsPage({ name, design, planned = [], sitePage, up, colophon }: PartsPageInput): Page {
  const parts = partsOfNetwork(design);
  const pieces = (kind: Part["kind"]) =>
    String(parts.reduce((sum, part) => sum + (part.kind === kind ? part.quantity : 0), 0));
  return {
    name,
    title: "Parts",
    subtitle: design.title,
    up: up && { text: up.text, to: { page: up.page } },
    keyFigures: [
      { label: "Units", value: pieces("unit") },
      { label: "Antennas", value: pieces("antenna") },
      { label: "Cards", value: pieces("card") },
    ],
    sections: [
      ...planned,
      networkSection(parts, design),
      ...[...sitePlans(design).values()].map((plan) => siteSection(plan, design, sitePage)),
    ],
    colophon,
  };
}

function networkSection(parts: readonly Part[], design: Design): Section {
  const spares = new Map(
    spareParts(parts, design.spares ?? []).map((spare) => [partWords(spare), spare] as const),
  );
  const withSpares = spares.size > 0;
  const table: Table = {
    type: "table",
    columns: [
      { title: "Part" },
      { title: "Type" },
      { title: "In use", align: "right" },
      ...(withSpares ? [{ title: "Spare", align: "right" } as const] : []),
    ],
    rows: parts.map((part) => ({
      cells: [
        part.kind,
        partWords(part),
        quantity(part),
        ...(withSpares ? [quantity(spares.get(partWords(part)))] : []),
      ],
    })),
  };
  const text = withSpares
    ? "Spares follow the rules of the network, for each type of part by itself."
    : "The network states no rule for spares.";
  const unlisted = unlistedParts(design).map((sentence): Block => ({ type: "paragraph", text: sentence }));
  return {
    id: "network",
    title: "The whole network",
    blocks: [table, { type: "paragraph", text }, ...unlisted],
  };
}

function siteSection(plan: SitePlan, design: Design, pageOf: PartsPageInput["sitePage"]): Section {
  const { name, title } = plan.site;
  const page = pageOf?.(name);
  const blocks: Block[] = siteBlocks(plan, design);
  if (page !== undefined)
    blocks.unshift({
      type: "paragraph",
      text: ["Structure, rack and every port: ", { text: `page of ${name}`, to: { page } }],
    });
  return { id: `site-${name}`, title: title ?? name, blocks };
}

/** What is ordered for a site, where its cards stand, and what all of it draws and weighs. */
export function siteBlocks(plan: SitePlan, design: Design): Block[] {
  return [partsTable(partsOfSite(plan, design)), ...slotTables(plan), ...loadFacts(plan)];
}

function partsTable(parts: readonly Part[]): Table {
  return {
    type: "table",
    columns: [{ title: "Part" }, { title: "Type" }, { title: "Quantity", align: "right" }],
    rows: parts.map((part) => ({ cells: [part.kind, partWords(part), quantity(part)] })),
  };
}

function slotTables({ placed, ifPorts }: SitePlan): Block[] {
  const byChassis = Map.groupBy(placed.cards, ({ chassis }) => chassis);
  const byCard = Map.groupBy(ifPorts.uses, ({ card }) => card);
  return [...byChassis].map(([chassis, cards]): Table => {
    const rows = cards
      .toSorted((a, b) => a.slot - b.slot)
      .map((card) => {
        const uses = (byCard.get(card) ?? [])
          .toSorted((a, b) => a.port - b.port)
          .map(
            ({ port, hop, branch, automatic }) =>
              `${port}: ${hop}, ${branchName(branch)}${automatic ? " (proposed)" : ""}`,
          );
        return {
          cells: [
            `${slotNumbers(card)}${card.automatic ? " (proposed)" : ""}`,
            partWords({ ...card.card, kind: "card", quantity: 1, estimated: false }),
            uses.join("; "),
          ],
        };
      });
    return {
      type: "table",
      caption: `${chassis.chassis?.title ?? chassis.chassis?.name ?? "Chassis"}, ${chassis.name}`,
      columns: [{ title: "Slot" }, { title: "Card" }, { title: "IF ports" }],
      rows,
    };
  });
}

function loadFacts(plan: SitePlan): Block[] {
  const facts: Fact[] = [];
  const load = siteLoad(plan);
  if (load.totalW > 0) {
    facts.push({
      label: "Greatest consumption",
      value: `${trimmed(load.totalW, 0)} W`,
      note: notCounted(load.unknown),
    });
    const { battery } = plan.equipment ?? {};
    const hours = battery && batteryAutonomy({ ...battery, loadW: load.totalW });
    if (hours?.ok) facts.push({ label: "On battery", value: `${trimmed(hours.hours, 1)} h` });
  }
  const structure = structureLoad(plan);
  if (structure.weightKg > 0) {
    const note = `without ${[...structure.unknown.slice(0, 6), ...structure.leftOut.filter((one) => one !== "twist")].join(", ")}`;
    facts.push({ label: "Weight on the structure", value: `${trimmed(structure.weightKg, 1)} kg`, note });
  }
  if (structure.windN !== undefined) {
    facts.push({
      label: "Wind force on what hangs there",
      value: `${trimmed(structure.windN / 1000, 2)} kN`,
      note: `without ${structure.leftOut.join(", ")}: a planning aid; a structural engineer releases the structure`,
    });
  }
  return facts.length === 0 ? [] : [{ type: "facts", facts }];
}

function notCounted(unknown: readonly string[]): string | undefined {
  return unknown.length === 0
    ? undefined
    : `without ${unknown.slice(0, 6).join(", ")}${unknown.length > 6 ? ", ..." : ""}`;
}
