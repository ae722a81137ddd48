/**
 * The rack of a site from the front: what its chassis take of the height that is free for them, in units of height.
 * Nothing states which unit a chassis stands on: they are drawn from above in the order of the text, without numbers.
 */
import { type Address, address, nth } from "../../../../design/address.js";
import type { InstalledChassis } from "../../../../design/equipment.js";
import type { SitePlan } from "../../../../equipment/site-plan.js";
import { trimmed } from "../../../../format/numbers.js";
import { broken } from "../fit.js";
import { LINE, linesAt, PAD } from "../lines.js";
import { draw, type Placed, type PlacedItem } from "../placed.js";

export interface RackSheet {
  readonly width: number;
}

export const WIDE_RACK: RackSheet = { width: 520 };
export const NARROW_RACK: RackSheet = { width: 380 };

const MARGIN = 6;
const UNIT = 26;
/** Higher ones are told in words and drawn shorter. */
const MOST_UNITS = 20;

/** @returns undefined where the site has no chassis */
export function drawRack(
  plan: SitePlan,
): { readonly svg: string; readonly narrow: string; readonly alt: string } | undefined {
  const rows = rackRows(plan);
  if (rows.length === 0) return undefined;
  const freeU = plan.equipment?.rackUnits;
  const neededU = rows.reduce((sum, { heightU }) => sum + heightU, 0);
  const room = freeU === undefined ? "" : ` of ${trimmed(freeU, 1)} U that are free`;
  return {
    svg: draw(layoutRack(plan, WIDE_RACK)),
    narrow: draw(layoutRack(plan, NARROW_RACK)),
    alt: `Rack of ${plan.site.name}: the chassis take ${trimmed(neededU, 1)} U${room}`,
  };
}

interface RackRow {
  readonly chassis: readonly (InstalledChassis & { readonly at: Address })[];
  /** Of the highest; 0 where none is stated. */
  readonly heightU: number;
}

function rackRows({ site, equipment }: SitePlan): RackRow[] {
  const rows = new Map<string, (InstalledChassis & { readonly at: Address })[]>();
  for (const [index, one] of (equipment?.chassis ?? []).entries()) {
    const key = one.row === undefined ? `alone ${index}` : `row ${one.row}`;
    rows.set(key, [
      ...(rows.get(key) ?? []),
      { ...one, at: address("site", site.name, nth("chassis", index)) },
    ]);
  }
  return [...rows.values()].map((chassis) => ({
    chassis,
    heightU: Math.max(0, ...chassis.map(({ chassis: of }) => of?.rackUnits ?? 0)),
  }));
}

export function layoutRack(plan: SitePlan, { width }: RackSheet): Placed {
  const rows = rackRows(plan);
  const freeU = plan.equipment?.rackUnits;
  const neededU = rows.reduce((sum, { heightU }) => sum + heightU, 0);
  const left = MARGIN;
  const inside = width - left - MARGIN;
  const items: PlacedItem[] = [];
  let y = MARGIN;
  const block = (heightU: number, place: (height: number) => PlacedItem[]) => {
    const drawnU = Math.max(1, Math.min(heightU, MOST_UNITS));
    const height = drawnU * UNIT;
    items.push(...place(height));
    y += height;
  };
  for (const { chassis, heightU } of rows) {
    const each = inside / chassis.length;
    block(heightU, (height) =>
      chassis.flatMap((one, index) => chassisItems(one, { x: left + index * each, y, width: each, height })),
    );
  }
  for (const [index, { title }] of (plan.equipment?.baluns ?? []).entries()) {
    const at = address("site", plan.site.name, nth("balun", index));
    block(0, (height) => [
      { kind: "box", box: "part", at, x: left, y, width: inside, height },
      ...linesAt(
        broken({ text: `${title}: balun panel, height not stated` }, inside - 2 * PAD, 1),
        left + PAD,
        y + (UNIT - LINE) / 2,
      ),
    ]);
  }
  const spareU = freeU === undefined ? undefined : freeU - neededU;
  if (spareU !== undefined && spareU > 0)
    block(spareU, (height) => [
      { kind: "box", box: "open", x: left, y, width: inside, height },
      ...linesAt(
        broken({ text: `free: ${trimmed(spareU, 1)} U` }, inside - 2 * PAD, 1),
        left + PAD,
        y + (UNIT - LINE) / 2,
      ),
    ]);
  const notes = [
    freeU === undefined ? "The free height of the rack is not stated." : undefined,
    spareU !== undefined && spareU < 0 ? `${trimmed(-spareU, 1)} U more than are free.` : undefined,
  ].filter((note) => note !== undefined);
  const noteLines = notes.flatMap((text) => broken({ text }, inside, 2));
  items.push(...linesAt(noteLines, left, y + PAD));
  return { width, height: y + (noteLines.length > 0 ? PAD + noteLines.length * LINE : 0) + MARGIN, items };
}

function chassisItems(
  { name, chassis, at }: RackRow["chassis"][number],
  rect: { readonly x: number; readonly y: number; readonly width: number; readonly height: number },
): PlacedItem[] {
  const height =
    chassis?.rackUnits === undefined ? "height not stated" : `${trimmed(chassis.rackUnits, 1)} U`;
  const words = { text: `${name}: ${chassis?.name ?? "not in the catalogue"}, ${height}` };
  return [
    { kind: "box", box: "part", at, ...rect },
    ...linesAt(
      broken(words, rect.width - 2 * PAD, rect.height > UNIT ? 2 : 1),
      rect.x + PAD,
      rect.y + (UNIT - LINE) / 2,
    ),
  ];
}
