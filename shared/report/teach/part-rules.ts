import type { Card } from "../../design/equipment.js";

/** Rules about a kind of part, by identifier, in the order of the registry: what the page of an entry names. */
export const PART_RULES = {
  card: [
    "slot-wrong-kind",
    "slot-doubled",
    "slots-short",
    "if-port-claim",
    "if-ports-short",
    "pair-on-one-card",
    "xpic-pair",
    "controller-protection",
    "service-port",
    "traffic-ports-short",
    "feed-slot",
    "aggregation-missing",
    "emulation-clock",
    "ethernet-power",
    "alarm-input",
    "chassis-power",
    "chassis-heat",
  ],
  radio: [
    "frequency-outside-tuning",
    "half-outside-radio",
    "duplex-mismatch",
    "channel-outside-radio",
    "power-above-mode",
    "threshold-implausible",
    "overload",
    "sub-band",
    "construction-mismatch",
    "xpic-missing",
    "interface-mismatch",
    "cable-too-long",
  ],
  antenna: [
    "antenna-out-of-band",
    "antenna-gain-implausible",
    "antenna-single-polarized",
    "antenna-ports-short",
    "antenna-not-needed",
    "polarization-not-taken",
    "direct-mounting",
    "interface-mismatch",
    "antennas-overlap",
    "structure-overload",
  ],
  coupler: [
    "coupler-impossible",
    "coupler-out-of-band",
    "coupler-wrong-kind",
    "coupler-missing",
    "coupler-not-needed",
    "interface-mismatch",
  ],
  chassis: [
    "chassis-doubled",
    "slot-wrong-kind",
    "slot-doubled",
    "slots-short",
    "controller-protection",
    "chassis-needs",
    "chassis-power",
    "chassis-heat",
    "air-path",
    "rack-full",
  ],
  cable: ["cable-too-long", "cable-too-short", "cable-wrong-kind"],
  feeder: [
    "feeder-out-of-band",
    "feeder-loss-impossible",
    "direct-with-feeder",
    "feeder-too-short",
    "flexible-guide-long",
  ],
} as const satisfies Readonly<Record<string, readonly string[]>>;

export type TaughtKind = keyof typeof PART_RULES;

/** Of what a card has to be for a rule to be about it; a rule that is not here is about every card. */
const ABOUT: Readonly<Record<string, (card: Card) => boolean>> = {
  "if-port-claim": isIf,
  "if-ports-short": isIf,
  "pair-on-one-card": isIf,
  "xpic-pair": isIf,
  "controller-protection": ({ kind }) => kind === "controller",
  "service-port": hasTraffic,
  "traffic-ports-short": hasTraffic,
  "feed-slot": ({ kind, supplyBuiltIn }) => kind === "power" || supplyBuiltIn === true,
  "aggregation-missing": ({ kind }) => kind === "aggregation" || kind === "ethernet",
  "emulation-clock": ({ kind, ports }) =>
    kind === "circuit-emulation" || ports.some(({ type }) => type === "sync"),
  "ethernet-power": ({ ports }) => ports.some(({ powered }) => powered),
  "alarm-input": ({ ports }) => ports.some(({ type }) => type === "alarm-in"),
};

function isIf({ kind, ports }: Card): boolean {
  return kind === "if" || ports.some(({ type }) => type === "IF");
}

function hasTraffic({ ports }: Card): boolean {
  return ports.some(({ type }) => !["IF", "alarm-in", "alarm-out", "sync"].includes(type));
}

/** Those that are about a card of its kind; all of them where the catalogue does not say what it is. */
export function rulesOfCard(card: Card): readonly string[] {
  if (card.kind === undefined) return PART_RULES.card;
  return PART_RULES.card.filter((id) => ABOUT[id]?.(card) ?? true);
}
