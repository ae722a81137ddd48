/** What is known of each remark: which figures it is about, and whether the availability is better for what it tells. */
import type { LeftOut, Note, NoteCode, Speaker } from "./note.js";

/** A figure, or a group of them, that remarks stand with. */
export type Topic =
  | "clearance"
  | "level"
  | "gases"
  | "rain"
  | "rain-outage"
  | "multipath"
  | "selective"
  | "diversity"
  | "cross-polar"
  | "availability"
  | "equipment"
  | "capacity";

interface NoteFacts {
  readonly about: readonly Topic[];
  /** A cause of outage is left out: the availability is better than the hop. */
  readonly leavesOut?: true;
}

/** Rows of their own. */
type Telling = "method-remark" | "method-refuses" | "method-left-out";

const FACTS: { readonly [C in Exclude<NoteCode, Telling>]: NoteFacts } = {
  "ground-bridged": { about: [] },
  "obstacles-not-counted": { about: ["clearance"] },
  "known-ground-only": { about: ["clearance"] },
  "gain-estimated": { about: ["level"] },
  "gain-of-nearest-point": { about: ["level"] },
  "loss-of-nearest-point": { about: ["level"] },
  "guide-loss-estimated": { about: ["level"] },
  "channel-open": { about: ["level", "rain", "availability"] },
  "gases-not-counted": { about: ["level", "gases"] },
  "path-below-sea-level": { about: ["level", "gases"] },
  "path-above-reference-air": { about: ["level", "gases"] },
  "diffraction-remark": { about: ["level"] },
  "median-diffraction-loss": { about: ["level"] },
  "carriers-cross": { about: ["level"] },
  "level-of-weakest-carrier": { about: ["level"] },
  "further-ray-loses-more": { about: ["diversity"] },
  "multipath-not-on-short-paths": { about: ["multipath"] },
  "quick-method-stands-in": { about: ["multipath"] },
  "multipath-initial-planning": { about: ["multipath"] },
  "multipath-detailed-preceding": { about: ["multipath"] },
  "multipath-quick": { about: ["multipath"] },
  "multipath-early-planning": { about: ["multipath", "availability"] },
  "ducts-likely": { about: ["multipath"] },
  "fading-as-of-clear-path": { about: ["multipath"] },
  "selective-fading-not-counted": { about: ["selective", "diversity", "availability"], leavesOut: true },
  "deep-fading-factor": { about: ["multipath", "diversity"] },
  // A rule of its own tells diversity that is not counted.
  "frequency-diversity-not-counted": { about: ["diversity", "availability"] },
  "space-diversity-not-counted": { about: ["diversity", "availability"] },
  "diversity-feeder-assumed": { about: ["diversity"] },
  "cross-polar-not-counted": { about: ["cross-polar", "availability"], leavesOut: true },
  "both-polarizations": { about: [] },
  "rain-zone-superseded": { about: ["rain"] },
  "rain-alone-counted": { about: ["rain"], leavesOut: true },
  "wet-snow-counted": { about: ["rain"] },
  "path-above-precipitation": { about: ["rain"] },
  "rain-beyond-law": { about: ["rain", "rain-outage", "availability"] },
  "rain-below-law-bounded": { about: ["rain", "rain-outage", "availability"] },
  "rain-below-law-estimated": { about: ["rain", "rain-outage", "availability"] },
  "directions-together": { about: ["availability"] },
  "higher-mode-after-hysteresis": { about: ["capacity"] },
  "availability-without-equipment": { about: ["availability"] },
  "availability-beside-equipment": { about: ["availability"] },
  "equipment-not-counted": { about: ["equipment", "availability"], leavesOut: true },
  "equipment-outage-unknown": { about: ["equipment"] },
  "channels-not-stated": { about: [] },
  "surface-not-counted": { about: ["availability"] },
  // Told by the figures of ends and sites themselves.
  "if-loss-equalized": { about: [] },
  "cable-of-one-point": { about: [] },
  "standby-measured-by-switching": { about: [] },
  "parts-not-counted": { about: [] },
  "structure-planning-aid": { about: [] },
  "battery-at-rated-rate": { about: [] },
  "ports-searched": { about: [] },
};

const SPOKEN: Readonly<Record<Speaker, NoteFacts>> = {
  multipath: { about: ["multipath"] },
  rain: { about: ["rain"] },
  "specific-rain": { about: ["rain"] },
  "rain-scaling": { about: ["rain"] },
  diversity: { about: ["diversity"] },
  "cross-polar-in-rain": { about: ["cross-polar"] },
  equipment: { about: ["equipment"] },
  "rain-in-the-worst-month": { about: ["rain", "rain-outage"] },
};

const LEFT_OUT: Readonly<Record<LeftOut, NoteFacts>> = {
  "selective-fading": { about: ["selective", "diversity", "availability"], leavesOut: true },
  diversity: { about: ["diversity", "availability"], leavesOut: true },
  "rain-scaling-with-polarization": { about: ["rain", "availability"], leavesOut: true },
  "rain-zone": { about: ["rain", "availability"], leavesOut: true },
  "rain-in-the-worst-month": { about: ["rain", "rain-outage", "availability"], leavesOut: true },
  // Objectives beside the availability: what is missing for them is told as such.
  "link-availability": { about: ["availability"] },
  "link-quality": { about: ["availability"] },
};

export function noteFacts(note: Note): NoteFacts {
  switch (note.code) {
    case "method-remark":
    case "method-refuses":
      return SPOKEN[note.of];
    case "method-left-out":
      return LEFT_OUT[note.method];
    default:
      return FACTS[note.code];
  }
}

export function isAbout(note: Note, ...topics: readonly Topic[]): boolean {
  return noteFacts(note).about.some((topic) => topics.includes(topic));
}
