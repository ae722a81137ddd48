import type { Address } from "../design/address.js";
import type { RadioMode } from "../design/design.js";

/** Steps of the computation. */
export const STEPS = [
  "path",
  /** Ground and antennas at both ends. */
  "heights",
  /** Frequency of the Fresnel zone. */
  "zone",
  /** Ground under the path. */
  "profile",
  /** Rays over antennas beside the first. */
  "further antennas",
  "level",
  /** Levels in the states with a unit on standby. */
  "standby",
  "threshold",
  "rain",
  "multipath",
  "cross-polar",
  "capacity",
  "link availability",
  "link quality",
] as const;

export type Step = (typeof STEPS)[number];

/** What the clearance of a ray takes. */
export const RAY_STEPS: readonly Step[] = ["path", "heights", "profile", "zone"];

/** What a level and its margin take: an obstruction on unknown ground would take from them. */
export const LEVEL_STEPS: readonly Step[] = ["path", "heights", "profile", "level", "threshold"];

/**
 * Why it does not:
 * - `fact`: the hop or a site does not state it;
 * - `catalogue`: an entry of the catalogue does not;
 * - `climate`, `terrain`: they do not tell;
 * - `refusal`: a method refuses its input;
 * - `bound`: a method only bounds the figure, and the bound does not tell;
 * - `left out`: the design leaves out the method;
 * - `beyond reason`: what is stated cannot be believed;
 * - `unusable`: what is stated has a name that nothing bears, or cannot be read;
 * - `off path`: an obstacle stands where the path does not lead;
 * - `no receiver`: both ends transmit where neither receives;
 * - `no coupler`: nothing that is stated joins the units to their antenna;
 * - `other band`: a part in the way of the signal is built for another band;
 * - `power not had`: more power is stated than the transmitter has.
 */
type LackCode =
  | "fact"
  | "catalogue"
  | "climate"
  | "terrain"
  | "refusal"
  | "bound"
  | "left out"
  | "beyond reason"
  | "unusable"
  | "off path"
  | "no receiver"
  | "no coupler"
  | "other band"
  | "power not had";

/** Something is stated, or needed, and not counted: a figure without it may be better than the hop is. */
const NOT_COUNTED: ReadonlySet<LackCode> = new Set([
  "beyond reason",
  "unusable",
  "off path",
  "no receiver",
  "no coupler",
  "other band",
  "power not had",
]);

export function countsAll(missing: readonly Lack[], steps: readonly Step[]): boolean {
  return !missing.some(({ code, of }) => NOT_COUNTED.has(code) && of.some((step) => steps.includes(step)));
}

/** Which mode, without what it can do. */
export function modeNamed({ modulation, bandwidthHz }: NonNullable<Lack["mode"]>): Lack["mode"] {
  return { modulation, bandwidthHz };
}

/** For example the `antenna height` at TARN. */
export interface FactName {
  readonly name: string;
  readonly site?: string;
}

/** For example `antenna height at TARN`; the same fact of several sites is told once. */
export function factWords({ name, site }: FactName, ...others: readonly string[]): string {
  if (site === undefined) return name;
  return `${name} ${name === "position" ? "of" : "at"} ${[site, ...others].join(" and ")}`;
}

/** Something that could not be computed, and what for want of. */
export interface Lack {
  readonly code: LackCode;
  /** The steps that come to no figure for it. */
  readonly of: readonly Step[];
  /** As a clause, for example `the climate gives no rain rate at 0.01 % of the year`. */
  readonly said: string;
  /** Of a fact: what it is called, and where it would stand. */
  readonly fact?: FactName;
  readonly at?: Address;
  /** The text has an error at the hop that tells it. */
  readonly told?: true;
  /** The mode that it is about; undefined: every one. */
  readonly mode?: Pick<RadioMode, "modulation" | "bandwidthHz">;
}

const HEADINGS: Readonly<Record<Step, string>> = {
  path: "Path",
  heights: "Heights",
  zone: "Clearance",
  profile: "Ground",
  "further antennas": "Clearance of further antennas",
  level: "Level",
  standby: "Level on standby",
  threshold: "Margin",
  rain: "Rain outage",
  multipath: "Multipath outage",
  "cross-polar": "Cross-polar outage",
  capacity: "Capacity",
  "link availability": "Availability of the link",
  "link quality": "Severely errored seconds",
};

/** As a sentence, headed by what it costs unless the clause itself says enough. */
export function lackSentence({ code, of, said }: Lack): string {
  const step = of[0];
  if (code === "fact" || NOT_COUNTED.has(code) || step === undefined)
    return `${said[0]?.toUpperCase()}${said.slice(1)}.`;
  return `${HEADINGS[step]}: ${said}.`;
}
