/** Any indoor repertoire that can be said: a chassis with any slots, cards with any ports. */
import fc from "fast-check";
import type { CardKind, Chassis, PortType, SlotKind } from "../../shared/design/equipment.js";

const SLOTS: readonly SlotKind[] = ["controller", "traffic", "fan", "power"];
const AIR: readonly NonNullable<Chassis["air"]>[] = [
  "left-to-right",
  "right-to-left",
  "front-to-back",
  "back-to-front",
];
const KINDS: readonly CardKind[] = [
  "controller",
  "if",
  "ethernet",
  "aggregation",
  "tdm",
  "circuit-emulation",
  "auxiliary",
  "fan",
  "power",
];
export const PORTS: readonly PortType[] = [
  "IF",
  "FE",
  "GE",
  "2.5GE",
  "10GE",
  "E1-75",
  "E1-120",
  "STM-1-electrical",
  "STM-1-optical",
  "order-wire",
  "data",
  "alarm-in",
  "alarm-out",
  "sync",
];

const ports = (of: readonly PortType[]) =>
  fc.array(fc.record({ count: fc.integer({ min: 1, max: 40 }), type: fc.constantFrom(...of) }), {
    maxLength: 4,
  });
export const chassis = fc.record({
  units: fc.integer({ min: 1, max: 12 }),
  slots: fc.array(fc.record({ kind: fc.constantFrom(...SLOTS), many: fc.integer({ min: 1, max: 6 }) }), {
    minLength: 1,
    maxLength: 8,
  }),
  air: fc.constantFrom(...AIR),
  builtIn: fc.boolean(),
  ports: ports(PORTS.filter((type) => type !== "IF")),
  drawsW: fc.integer({ min: 0, max: 60 }),
});
export const cards = fc.array(
  fc.record({
    kind: fc.constantFrom(...KINDS),
    ports: ports(PORTS),
    drawsW: fc.integer({ min: 0, max: 60 }),
    count: fc.integer({ min: 1, max: 4 }),
    spans: fc.oneof({ weight: 3, arbitrary: fc.constant(1) }, fc.integer({ min: 1, max: 4 })),
  }),
  { minLength: 1, maxLength: 6 },
);

type Box = typeof chassis extends fc.Arbitrary<infer B> ? B : never;
type Loose = typeof cards extends fc.Arbitrary<infer C> ? C : never;

const portLines = (list: readonly { count: number; type: PortType }[]) =>
  list.map(({ count, type }) => `  ports ${count} ${type}`);

/** Entries BOX and C0, C1, ... of the catalogue, slots of the one, and the lines that put all cards into it. */
export function repertoireOf(box: Box, loose: Loose) {
  let next = 1;
  const slots = box.slots.map(({ kind, many }) => ({ kind, from: next, to: (next += many) - 1 }));
  const catalogue = [
    `chassis BOX {`,
    `  height ${box.units} U`,
    ...slots.map(({ kind, from, to }) => `  slot ${from} to ${to} ${kind}`),
    `  air ${box.air}`,
    ...(box.builtIn ? ["  controller built-in"] : []),
    ...portLines(box.ports),
    `  draws ${box.drawsW} W`,
    "}",
    ...loose.flatMap(({ kind, ports, drawsW, spans }, i) => [
      `card C${i} {`,
      `  kind ${kind}`,
      ...portLines(ports),
      `  draws ${drawsW} W`,
      `  spans ${spans}`,
      "}",
    ]),
  ].join("\n");
  const lines = loose.map(({ count }, i) => `  card C${i} ${count}`);
  return { slots, catalogue, lines };
}
