/** What a face says: the chassis with its loads, each slot, each port. */
import type { Chassis } from "../../../../design/equipment.js";
import { slotCountOf, slotNumbers } from "../../../../equipment/placement.js";
import type { PortRow } from "../../../../equipment/wiring/port-plan.js";
import { watts } from "../../../../format/numbers.js";
import { shown } from "../../../../words/message.js";
import { carriedMessage, joinedByMessage, lacksMessage } from "../../../../words/wiring.js";
import type { Words } from "../fit.js";
import type { ChassisFace, FaceSlot, PortRun } from "./face.js";

const PROPOSED = "proposed";

export function faceTitle({ name, chassis }: ChassisFace): string {
  const entry = chassis === undefined ? "not in the catalogue" : (chassis.title ?? chassis.name);
  return `${name}: ${entry}`;
}

const AIR: Readonly<Record<NonNullable<Chassis["air"]>, string>> = {
  "left-to-right": "air from left to right",
  "right-to-left": "air from right to left",
  "front-to-back": "air in at the front, out at the back",
  "back-to-front": "air in at the back, out at the front",
};

export function faceFacts({ chassis, feedW, heatW }: ChassisFace): Words[] {
  const { rackUnits, air, supplyW, heatLimitW } = chassis ?? {};
  const of = (limitW: number | undefined) => (limitW === undefined ? "" : ` of ${watts(limitW)}`);
  return [
    [
      rackUnits === undefined ? "height not stated" : `${rackUnits} U`,
      air === undefined ? "way of the air not stated" : AIR[air],
    ],
    [`${watts(feedW)}${of(supplyW)} through its feeds`, `${watts(heatW)}${of(heatLimitW)} of heat`],
  ].map((facts): Words => ({ text: facts.join(", "), style: "quiet" }));
}

/** Number, card and what it draws. */
export function slotWords({ slot, takes, card, proposed }: FaceSlot): {
  readonly number: Words;
  readonly name: Words;
  readonly draws?: Words;
  readonly note?: Words;
} {
  const number: Words = { text: String(slot), style: "strong" };
  if (card === undefined) return { number, name: { text: `free, ${takes ?? "any"} slot`, style: "quiet" } };
  const notes = [
    slotCountOf(card) === 1 ? undefined : `slots ${slotNumbers({ slot, card })}`,
    card.title,
    takes === undefined ? "the chassis has no such slot" : undefined,
    proposed ? PROPOSED : undefined,
  ].filter((note) => note !== undefined);
  return {
    number,
    name: { text: card.name, style: "strong" },
    draws: { text: card.drawsW === undefined ? "W not stated" : watts(card.drawsW) },
    note: notes.length === 0 ? undefined : { text: notes.join(", "), style: "quiet" },
  };
}

/** `1–3 E1-75: mill 1 to 3`; where a number and the place among its type differ, `2 alarm-in 1: mains` */
export function runWords({ first, last, count }: PortRun): Words {
  const range = rangeOf(first.port.name, last.port.name, count);
  const { type, ofType, powered, name } = first.port;
  const among =
    ofType === undefined || String(ofType) === name ? "" : ` ${rangeOf(ofType, last.port.ofType, count)}`;
  const kind = ofType === undefined ? "" : ` ${type}${among}${powered ? ", powered" : ""}`;
  const use = useOf(first, last);
  return { text: `${range}${kind}: ${use}`, style: first.joined === undefined ? "quiet" : "plain" };
}

function rangeOf(first: string | number, last: string | number | undefined, count: number): string {
  return count === 1 ? String(first) : `${first}–${last}`;
}

function useOf(first: PortRow, last: PortRow): string {
  const { joined, lacks } = first;
  if (joined === undefined) return lacks === undefined ? "free" : shown(lacksMessage(lacks));
  const { carries, by, proposed, cable } = joined;
  const carried = by.kind === "fuse" ? shown(joinedByMessage(by)) : shown(carriedMessage(carries));
  const through =
    carries.kind === "service" && last.joined?.carries.kind === "service" && last !== first
      ? ` to ${last.joined.carries.index}`
      : "";
  const number = carries.kind === "hop" && cable !== undefined ? `, cable ${cable}` : "";
  return `${carried}${through}${number}${proposed ? `, ${PROPOSED}` : ""}`;
}

export function leftWords({ left }: ChassisFace): Words[] {
  return left.map(({ card, count }) => ({
    text: `no slot left for ${count === 1 ? "" : `${count} `}${card.name}`,
  }));
}
