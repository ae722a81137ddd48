import { address, nth } from "../../design/address.js";
import type { RadioMode } from "../../design/catalogue.js";
import type { Hop } from "../../design/design.js";
import type { Card } from "../../design/equipment.js";
import type { Fix } from "../../design/fact-change.js";
import type { IfPortUse } from "../../equipment/if-ports.js";
import { type PlacedCard, slotCountOf, slotKindOf } from "../../equipment/placement.js";
import { type SitePlan, sitePlans } from "../../equipment/site-plan.js";
import { askedMode } from "../../evaluate/level/judged-mode.js";
import { bandwidth, bitRate } from "../../format/numbers.js";
import { bitsPerSymbol } from "../../radio/modulation.js";
import { portsOf } from "../fixes/cards.js";
import { decision, endHere, type Mending } from "../fixes/mending.js";
import type { SiteRule } from "../rule.js";
import { equipped } from "./example-equipment.js";
import { chassisAddress, hasIndoorUnit } from "./site-rules.js";

const wave = (facts: string) =>
  equipped(
    "chassis BOX {\n  slot 1 WAVE\n}",
    {},
    `chassis BOX { slot 1 to 2 traffic; controller built-in }\ncard WAVE { kind if; ports 1 IF; ${facts} }`,
  );

export const ifCardUnit: SiteRule = {
  scope: "network",
  each: "site",
  id: "if-card-unit",
  severity: "error",
  title: "An IF card must drive its units, in the hop's channel and modes",
  checks:
    "What the card of each IF port states against unit and hop: generations of units, channel widths, highest modulation and capacity of a port. Where the mode that is judged is within both and a higher one in use is not, it is a warning. What either does not state is not judged.",
  why: "Unit and card are ordered apart: one that does not drive the other is found on the tower, and a card that ends below the mode takes the rate that was counted on.",
  fix: "Another IF card, or modes and units that the card works with.",
  source: "common practice",
  fixes: otherIfCard,
  good: wave("channel-width 28 MHz to 56 MHz; highest-modulation 128QAM; capacity 310 Mbit/s"),
  bad: wave("channel-width 28 MHz to 56 MHz; highest-modulation 64QAM; capacity 310 Mbit/s"),
  check({ plan, report }) {
    if (!hasIndoorUnit(plan)) return;
    const uses = Map.groupBy(
      plan.ifPorts.uses.filter(({ card }) => statesAnything(card.card)),
      ({ hop }) => hop,
    );
    if (uses.size === 0) return;
    for (const { hop } of plan.ends) {
      for (const { card } of oneOfEach(uses.get(hop.name) ?? [])) {
        const { faults, severity } = faultsOf(card.card, hop);
        if (faults.length === 0) continue;
        report(
          {
            at: address("hop", hop.name, plan.site.name),
            severity,
            message: `${card.card.name} in slot ${card.slot} at ${plan.site.name}: ${faults.join("; ")}`,
            related: [{ at: address("card", card.card.name), message: card.card.name }],
          },
          hop.name,
        );
      }
    }
  },
};

function statesAnything({ drives, channelWidths, highestModulation, portCapacityBps }: Card): boolean {
  return [drives, channelWidths, highestModulation, portCapacityBps].some((fact) => fact !== undefined);
}

/** One use of each sort of card: what it does not drive is the same in every slot. */
function oneOfEach(uses: readonly IfPortUse[]): readonly IfPortUse[] {
  return [...new Map(uses.toReversed().map((use) => [use.card.card, use])).values()].toReversed();
}

/** What keeps the hop from working; where nothing does, what keeps its higher modes from being used. */
function faultsOf(card: Card, hop: Hop): { faults: readonly string[]; severity?: "warning" } {
  const asked = askedMode(hop);
  const faults = [
    generationFault(card, hop),
    widthFault(card, hop),
    ...(asked ? modeFaults(card, asked) : []),
  ];
  const grave = faults.filter((fault) => fault !== undefined);
  if (grave.length > 0) return { faults: grave };
  const highest = hop.modes.at(-1);
  const milder = highest ? modeFaults(card, highest).filter((fault) => fault !== undefined) : [];
  return { faults: milder, severity: "warning" };
}

function generationFault({ drives }: Card, { radio }: Hop): string | undefined {
  const generation = radio?.unit?.generation;
  if (drives === undefined || generation === undefined || drives.includes(generation)) return undefined;
  return `it drives ${drives.join(", ")}, ${radio!.name} is ${generation}`;
}

/** Widths are written rounded. */
const SAME_WIDTH_HZ = 1000;

function widthFault({ channelWidths }: Card, { modes, channel }: Hop): string | undefined {
  const widthHz = modes[0]?.bandwidthHz ?? channel?.bandwidthHz;
  if (channelWidths === undefined || widthHz === undefined) return undefined;
  const fits = channelWidths.some(
    ({ fromHz, toHz }) => fromHz - SAME_WIDTH_HZ <= widthHz && widthHz <= toHz + SAME_WIDTH_HZ,
  );
  if (fits) return undefined;
  const words = channelWidths.map(({ fromHz, toHz }) =>
    fromHz === toHz ? bandwidth(fromHz) : `${bandwidth(fromHz)} to ${bandwidth(toHz)}`,
  );
  return `it works in ${words.join(", ")}, the hop in ${bandwidth(widthHz)}`;
}

function modeFaults(card: Card, { modulation, bitRateBps }: RadioMode): readonly (string | undefined)[] {
  const { highestModulation, portCapacityBps } = card;
  const most = highestModulation === undefined ? undefined : bitsPerSymbol(highestModulation);
  const wanted = bitsPerSymbol(modulation);
  return [
    most !== undefined && wanted !== undefined && wanted > most
      ? `${highestModulation} is its highest modulation, the hop uses ${modulation}`
      : undefined,
    portCapacityBps !== undefined && bitRateBps !== undefined && bitRateBps > portCapacityBps
      ? `a port carries ${bitRate(portCapacityBps)}, ${modulation} makes ${bitRate(bitRateBps)}`
      : undefined,
  ];
}

/** Cards of the catalogue that drive the hop's units, with no fewer IF ports and for the same slot. */
function otherIfCard(mending: Mending): readonly Fix[] {
  const here = endHere(mending);
  const plan = here && sitePlans(mending.design).get(here.site);
  const use =
    plan &&
    oneOfEach(plan.ifPorts.uses.filter(({ hop }) => hop === here.hop.name)).find(
      ({ card }) => faultsOf(card.card, here.hop).faults.length > 0,
    );
  if (!plan || !use) return [];
  const stated = statementOf(use.card, plan);
  const now = use.card.card;
  const suits = (one: Card) =>
    one.kind === "if" &&
    portsOf(one, "IF") >= portsOf(now, "IF") &&
    slotKindOf(one) === slotKindOf(now) &&
    slotCountOf(one) === slotCountOf(now) &&
    (now.xpic !== true || one.xpic !== false) &&
    one.pairs === now.pairs &&
    faultsOf(one, here.hop).faults.length === 0;
  return mending.catalogue.cards.filter(suits).map(({ name }) =>
    decision(`Take ${name} in place of ${now.name} at ${here.site} (changes the equipment)`, {
      do: "replace",
      at: stated,
      argument: "card",
      by: name,
    }),
  );
}

/** The line that puts a card there. */
function statementOf({ chassis, slot, card, automatic }: PlacedCard, plan: SitePlan): string {
  const [lines, word] = automatic
    ? [chassis.loose.findIndex((one) => one.card === card), "card"]
    : [chassis.slots.findIndex((one) => one.slot === slot && one.card === card), "slot"];
  return chassisAddress(plan, chassis, nth(word as string, Math.max(0, lines as number)));
}
