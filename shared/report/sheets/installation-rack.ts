/** What stands in the rack: each chassis with its cards, slot by slot, and the hops that they serve. */
import { cardHops } from "../../equipment/card-hops.js";
import type { SitePlan } from "../../equipment/site-plan.js";
import { fixed, trimmed } from "../../format/numbers.js";
import type { Section, TableRow } from "../document/document.js";
import type { SheetWords } from "./words/sheet-words.js";

/** Nothing where the site has no chassis. */
export function rackSection(plan: SitePlan, words: SheetWords): Section[] {
  const { rack, cables } = words.installation;
  const chassis = plan.equipment?.chassis ?? [];
  if (chassis.length === 0) return [];
  const free = plan.equipment?.rackUnits;
  return [
    {
      id: "rack",
      title: rack.title,
      blocks: [
        {
          type: "table",
          columns: [
            { title: rack.chassis },
            { title: rack.slot },
            { title: rack.what },
            { title: rack.serves },
            { title: rack.unit, fill: true },
            { title: cables.done, fill: true },
          ],
          rows: chassis.flatMap((one) => [chassisRow(one, words), ...cardRows(plan, one, words)]),
        },
        {
          type: "paragraph",
          text: {
            text: [
              free === undefined ? rack.noFree : rack.free(rackUnits(free)),
              rack.unitTold,
              ...(plan.placed.cards.some(({ automatic }) => automatic) ? [rack.proposedTold] : []),
            ].join(" "),
            mark: "quiet",
          },
        },
      ],
    },
  ];
}

type Installed = NonNullable<SitePlan["equipment"]>["chassis"][number];

function chassisRow({ name, chassis, row }: Installed, words: SheetWords): TableRow {
  const { rack } = words.installation;
  const told = [
    chassis === undefined ? words.common.notStated : chassis.title || chassis.name,
    chassis?.rackUnits === undefined ? undefined : words.figure(rackUnits(chassis.rackUnits)),
    row === undefined ? undefined : rack.row(row),
    chassis?.weightKg === undefined ? undefined : words.figure(`${trimmed(chassis.weightKg, 1)} kg`),
  ].filter((part) => part !== undefined);
  return { cells: [{ text: name, mark: "strong" }, "–", told.join(", "), "–", "", ""] };
}

function cardRows(plan: SitePlan, installed: Installed, words: SheetWords): TableRow[] {
  const { cables } = words.installation;
  const served = new Map(cardHops(plan).map(({ name, hops, partly }) => [name, [...hops, ...partly].sort()]));
  const placed = plan.placed.cards
    .filter(({ chassis }) => chassis === installed)
    .toSorted((a, b) => a.slot - b.slot)
    .map(({ slot, card, automatic }): TableRow => {
      const last = slot + (card.slotCount ?? 1) - 1;
      const title = card.title || card.name;
      return {
        cells: [
          installed.name,
          last > slot ? `${slot}–${last}` : String(slot),
          automatic ? [title, { text: ` ${cables.proposed}`, mark: "quiet" }] : title,
          served.get(`${plan.site.name}/${installed.name}/${slot}`)?.join(", ") ?? "–",
          // The chassis has the rack unit, its cards have none.
          "–",
          "",
        ],
      };
    });
  const left = plan.placed.left
    .filter(({ chassis }) => chassis === installed)
    .map(
      ({ card, count }): TableRow => ({
        cells: [
          installed.name,
          "–",
          `${count === 1 ? "" : `${fixed(count, 0)} × `}${card.title || card.name}, ${cables.lacks.slot}`,
          "–",
          "–",
          "",
        ],
      }),
    );
  // A slot that is stated without a card that is known stays in sight.
  const unknown = installed.slots
    .filter(({ card }) => card === undefined)
    .map(
      ({ slot }): TableRow => ({
        cells: [installed.name, String(slot), words.common.notStated, "–", "–", ""],
      }),
    );
  return [...placed, ...left, ...unknown];
}

/** `2 U`, one of 44.45 mm (IEC 60297-3-100). */
function rackUnits(count: number): string {
  return `${trimmed(count, 1)} U`;
}
