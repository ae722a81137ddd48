/**
 * What is written at both ends of a cable, by the rule of the network or the usual one. Numbers rest on what the cable is
 * for and not on its place in a list, so that a label stays true when others come or go.
 */
import type { Joint, PortRef, WiredPart, Wiring } from "./wiring.js";

/** Words in braces that a rule may use, each with what it stands for. */
export const LABEL_WORDS = {
  site: "the site",
  cable: "the number of the cable at its site",
  here: "part and port at this end",
  there: "part and port at the other end",
  hop: "the hop, of a cable or guide to a unit; of any other what it is for: the service, alarm or power",
} as const;

/** How labels name a part and its port. */
export const PORT_NOTATION =
  "A/11:1 is port 1 of the card in slot 11 of chassis A, A/6:supply the supply of the card in slot 6, A:1 a port of the chassis itself; KELD-TARN main unit:IF is port IF of the main unit of hop KELD-TARN.";

type LabelWord = keyof typeof LABEL_WORDS;

export const USUAL_LABEL = "{cable} to {there}";

/** Words that differ from cable to cable: a number is on one, a port at one end of one. A rule needs one of them. */
export const TELLING_APART: readonly LabelWord[] = ["cable", "here", "there"];

export interface CableLabel {
  readonly cable: string;
  /** In the order of the joint's ends. */
  readonly ends: readonly [string, string];
}

/** Labels of a site's cables, guides and wires, by the joint; a flange and a backplane have none. */
export function labelsOf(wiring: Wiring, rule: string = USUAL_LABEL): ReadonlyMap<Joint, CableLabel> {
  const numbers = numbered(wiring);
  return new Map(
    [...numbers].map(([joint, cable]) => {
      const [one, other] = joint.ends.map((end) => portWords(end, wiring));
      const words = { site: wiring.site, cable, hop: purposeOf(joint) };
      return [
        joint,
        {
          cable,
          ends: [
            filled(rule, { ...words, here: one!, there: other! }),
            filled(rule, { ...words, here: other!, there: one! }),
          ],
        },
      ];
    }),
  );
}

/** Where the port at the other end is written by hand. */
const BLANK_PORT = "……";

/** Of a cable to a unit that finds no port indoors: from indoors to the unit, with a blank for that port. */
export function openLabel(unit: PortRef, wiring: Wiring, rule: string = USUAL_LABEL): CableLabel {
  const hop = wiring.parts.get(unit.part)?.of?.hop ?? "";
  const cable = `${hop}-${unitNumbers(wiring).get(unit.part) ?? ""}`.replace(/-$/, "");
  const words = { site: wiring.site, cable, hop };
  const upper = portWords(unit, wiring);
  return {
    cable,
    ends: [
      filled(rule, { ...words, here: BLANK_PORT, there: upper }),
      filled(rule, { ...words, here: upper, there: BLANK_PORT }),
    ],
  };
}

/** No label has a gap where a cable is of no hop. */
function purposeOf({ carries, ends: [from] }: Joint): string {
  switch (carries.kind) {
    case "hop":
      return carries.hop;
    case "service":
      return carries.title || from.part;
    case "alarm":
      return "alarm";
    case "feed":
    case "slot":
      return "power";
  }
}

function filled(rule: string, words: Readonly<Record<LabelWord, string>>): string {
  const text = rule.replace(/\{([^{}]*)\}/g, (found, word: string) =>
    Object.hasOwn(LABEL_WORDS, word) ? words[word as LabelWord] : found,
  );
  return text.replace(/ +/g, " ").trim();
}

/** Short enough for a label: `A/3:1`, `MOSS-TARN main unit:IF`, `mill 2`. */
export function portWords({ part, port }: PortRef, { parts }: Pick<Wiring, "parts">): string {
  const found = parts.get(part);
  if (found === undefined) return `${part} ${port}`;
  switch (found.kind) {
    case "chassis":
    case "card":
      return `${placeWords(found)}:${port}`;
    case "plant":
      return port;
    case "service":
    case "contact":
    case "balun":
      return found.kind === "contact" ? found.title || part : `${found.title || part} ${port}`;
    default:
      return `${hopWords(found)}:${port}`;
  }
}

function placeWords({ id, place }: WiredPart): string {
  if (place === undefined) return id;
  return place.slot === undefined ? place.chassis : `${place.chassis}/${place.slot}`;
}

/** An end may have several antennas and couplers: each is called as the fact that states it. */
function hopWords({ kind, of, at }: WiredPart): string {
  const stated = kind === "antenna" || kind === "coupler" ? at.split(" / ")[2]?.replaceAll("-", " ") : kind;
  const words = [of?.hop, of?.branch === "only" ? undefined : of?.branch, stated];
  return words.filter((word) => word !== undefined).join(" ");
}

/** Each unit's number among those of its hop, from 1. */
function unitNumbers(wiring: Wiring): ReadonlyMap<string, number> {
  const units = new Map<string, number>();
  const unitNumber = new Map<string, number>();
  for (const { id, kind, of } of wiring.parts.values()) {
    if (kind !== "unit" || of === undefined) continue;
    const number = (units.get(of.hop) ?? 0) + 1;
    units.set(of.hop, number);
    unitNumber.set(id, number);
  }
  return unitNumber;
}

/** A number for each joint that is a cable, a guide or a wire. */
function numbered(wiring: Wiring): ReadonlyMap<Joint, string> {
  const unitNumber = unitNumbers(wiring);
  const numbers = new Map<Joint, string>();
  const used = new Map<string, number>();
  for (const joint of wiring.joints) {
    const base = numberOf(joint, unitNumber, wiring);
    if (base === undefined) continue;
    const times = used.get(base) ?? 0;
    used.set(base, times + 1);
    // One over a panel, or the second polarization behind a coupler.
    numbers.set(joint, times === 0 ? base : `${base}.${times + 1}`);
  }
  return numbers;
}

function numberOf(
  { by, carries, ends }: Joint,
  unitNumber: ReadonlyMap<string, number>,
  { parts }: Wiring,
): string | undefined {
  if (by.kind === "flange" || by.kind === "backplane") return undefined;
  switch (carries.kind) {
    case "hop": {
      const unit = ends.map(({ part }) => unitNumber.get(part)).find((number) => number !== undefined);
      return `${carries.hop}-${by.kind === "waveguide" ? "W" : ""}${unit ?? ""}`.replace(/-$/, "");
    }
    case "service": {
      const from = parts.get(ends[0].part);
      // Behind a panel the pair of the panel counts.
      return from?.kind === "balun"
        ? `${from.title || from.id}-${Number.parseInt(ends[0].port, 10)}`
        : `${carries.title || ends[0].part}-${carries.index}`;
    }
    case "alarm":
      return `alarm ${carries.input}`;
    case "feed":
      return by.kind === "fuse" ? `feed ${by.feed}${by.fuse}` : `feed ${carries.feed}`;
    case "slot":
      return undefined;
  }
}
