/** What is joined to what, in words: kinds of parts, what joins them, what a joint carries, what lacks. */
import type { Carried, JoinedBy, LooseEnd, PartKind, WiredPart } from "../equipment/wiring/wiring.js";
import { metres } from "../format/numbers.js";
import { type Message, message } from "./message.js";

export const PART_KINDS: Readonly<Record<PartKind, string>> = {
  service: "service",
  contact: "contact",
  plant: "DC plant",
  balun: "balun panel",
  chassis: "chassis",
  card: "card",
  unit: "unit",
  coupler: "coupler",
  branching: "branching network",
  antenna: "antenna",
};

const LACKS: Readonly<Record<LooseEnd["lacks"], string>> = {
  "traffic port": "no free traffic port of its kind",
  "powered port": "no free port that powers it",
  "IF port": "no free IF port",
  "alarm input": "no free alarm input of this number",
  arm: "no arm of a coupler is left for it",
  antenna: "no antenna is stated for it",
  slot: "no free slot of its kind",
  "port of its own": "what it would be joined to is not there, or has something else on it",
  "indoor unit": "no indoor unit is stated at the site",
  "handed over": "traffic is handed over here, no indoor unit is stated",
};

/** A branch as it is read; the only one of an end is its unit. */
export function branchName(branch: string): string {
  return branch === ONLY ? "unit" : branch;
}

const ONLY = "only";

export function partKindMessage(kind: PartKind): Message {
  return message(PART_KINDS[kind]);
}

/** `card SQUALL in slot 3 of A`, `unit R18, MOSS-TARN, main` */
export function partMessage({ kind, name, title, place, of }: WiredPart): Message {
  const words = [name ?? title];
  if (place?.slot !== undefined) words.push(`slot ${place.slot} of ${place.chassis}`);
  else if (place !== undefined && place.chassis !== name) words.push(place.chassis);
  if (of !== undefined) words.push(of.hop, of.branch === ONLY ? undefined : of.branch);
  const said = words.filter((word) => word !== undefined).join(", ");
  return message(said === "" ? PART_KINDS[kind] : `${PART_KINDS[kind]} ${said}`);
}

export function lacksMessage(lacks: LooseEnd["lacks"]): Message {
  return message(LACKS[lacks]);
}

export function carriedMessage(carried: Carried): Message {
  switch (carried.kind) {
    case "service":
      return message(`${carried.title} ${carried.index}`);
    case "hop":
      return message(
        carried.branch === undefined || carried.branch === ONLY
          ? carried.hop
          : `${carried.hop}, ${carried.branch}`,
      );
    case "slot":
      return message("backplane");
    case "feed":
      return message(`feed ${carried.feed}, -48 V`);
    case "alarm":
      return message(`alarm ${carried.input}`);
  }
}

export function joinedByMessage(by: JoinedBy): Message {
  switch (by.kind) {
    case "backplane":
      return message("backplane");
    case "patch":
      return message("patch cable");
    case "wire":
      return message("wire");
    case "flange":
      return message("bolted");
    case "fuse": {
      const rating = by.ratingA === undefined ? "" : ` of ${by.ratingA} A`;
      return message(`feed ${by.feed}, fuse ${by.fuse}${rating}`);
    }
    case "cable": {
      const name = by.cable ?? `${by.sort} cable, to be chosen`;
      return message(withLength(name, by.lengthM, by.estimated));
    }
    case "waveguide":
      return message(withLength(by.feeder ?? "waveguide, to be chosen", by.lengthM));
  }
}

function withLength(name: string, lengthM: number | undefined, estimated = false): string {
  return lengthM === undefined ? name : `${name}, ${estimated ? "~" : ""}${metres(lengthM)}`;
}
