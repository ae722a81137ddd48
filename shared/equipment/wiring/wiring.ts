/**
 * What is joined to what at a site: parts with named ports, and joints between two ports. Everything that draws, lists
 * or labels the equipment reads this; nothing of it is a figure.
 */
import type { Address } from "../../design/address.js";
import type { CableKind, PortType } from "../../design/equipment.js";

export interface Wiring {
  readonly site: string;
  /** By their identifier, in the order from what is handed over to the antennas. */
  readonly parts: ReadonlyMap<string, WiredPart>;
  readonly joints: readonly Joint[];
  /** What found no port, or has nothing at its other end. */
  readonly loose: readonly LooseEnd[];
}

export type PartKind =
  | "service"
  | "contact"
  | "plant"
  | "balun"
  | "chassis"
  | "card"
  | "unit"
  | "coupler"
  | "branching"
  | "antenna";

export interface WiredPart {
  /** The same as long as the part has its place: `card A/3`, `unit KELD-TARN main`. */
  readonly id: string;
  readonly kind: PartKind;
  /** Of the catalogue. */
  readonly name?: string;
  /** As the design calls it: a service, a contact. */
  readonly title?: string;
  /** The fact that states it. */
  readonly at: Address;
  readonly ports: readonly WiredPort[];
  /** A chassis or a card. */
  readonly place?: RackPlace;
  /** A unit, coupler or antenna of a hop. */
  readonly of?: BranchPlace;
  /** Its slot was proposed, not stated. */
  readonly proposed?: true;
}

/** Where a card is. */
interface RackPlace {
  /** Name of the chassis at the site. */
  readonly chassis: string;
  /** Undefined: the chassis itself. */
  readonly slot?: number;
  /** Slots that a card covers from there on; undefined: one. */
  readonly slotCount?: number;
}

interface BranchPlace {
  readonly hop: string;
  /** Undefined: of several branches. */
  readonly branch?: string;
}

export interface WiredPort {
  /** Unique within the part: `3`, `IF`, `main arm`, `vertical`. */
  readonly name: string;
  readonly type: PortType | JointPort;
  /** Of a numbered one: which it is of its type, from 1; its name counts over all types of the part. */
  readonly ofType?: number;
  /** Gives power over its cable. */
  readonly powered?: true;
  /** An unused one is closed with a termination. */
  readonly terminated?: true;
}

/** Ports that are no traffic: what cards plug into, direct current, contacts, guide. */
type JointPort = "backplane" | "supply" | "contact" | "waveguide";

export interface PortRef {
  /** Identifier of the part. */
  readonly part: string;
  readonly port: string;
}

export interface Joint {
  /** From the handed-over signal towards the antenna; a feed, from its plant. */
  readonly ends: readonly [PortRef, PortRef];
  readonly by: JoinedBy;
  readonly carries: Carried;
  /** Proposed, not stated. */
  readonly proposed?: true;
}

export type JoinedBy =
  | { readonly kind: "backplane" }
  /** A short cable in the rack that nobody lists by itself. */
  | { readonly kind: "patch" }
  /** A pair to a contact. */
  | { readonly kind: "wire" }
  | { readonly kind: "fuse"; readonly feed: string; readonly fuse: number; readonly ratingA?: number }
  | {
      readonly kind: "cable";
      readonly cable?: string;
      readonly sort: CableKind;
      readonly lengthM?: number;
      readonly estimated?: boolean;
    }
  | { readonly kind: "flange" }
  | {
      readonly kind: "waveguide";
      /** Undefined: to be chosen. */
      readonly feeder?: string;
      readonly lengthM?: number;
    };

export type Carried =
  | { readonly kind: "service"; readonly title: string; readonly index: number }
  /** One branch, or undefined: all that the part passes. */
  | { readonly kind: "hop"; readonly hop: string; readonly branch?: string }
  | { readonly kind: "slot" }
  | { readonly kind: "feed"; readonly feed: string }
  | { readonly kind: "alarm"; readonly input: number };

export type StatedFault = "no card in the slot" | "no such port" | "another kind" | "taken";

export interface LooseEnd {
  readonly part: string;
  readonly port: string;
  readonly lacks:
    | "traffic port"
    | "powered port"
    | "IF port"
    | "alarm input"
    | "arm"
    | "antenna"
    | "slot"
    | "indoor unit"
    /** Of a unit with a traffic port of its own, at a site without an indoor unit: nothing lacks there. */
    | "handed over"
    /** What it would be joined to is not there, or has something else on it. */
    | "port of its own";
  /** Of one whose port is stated: why it cannot have it. */
  readonly fault?: StatedFault;
}

export function portKey({ part, port }: PortRef): string {
  return `${part}\n${port}`;
}
