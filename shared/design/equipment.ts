/**
 * Equipment beyond the radio budget: units, cards, chassis, cables and what a site has for them. As in the design
 * itself everything may be missing; the rules say what.
 */
import type { FrequencyRange } from "./frequency-range.js";

/** What a radio states of its unit beside its budget. */
export interface UnitFacts {
  readonly construction?: "split-mount" | "all-outdoor" | "all-indoor";
  /** Antenna port, a flange's name or any word of the catalogue. */
  readonly interface?: string;
  readonly subBands: readonly SubBand[];
  /** Greatest consumption of one unit. */
  readonly drawsW?: number;
  readonly weightKg?: number;
  /** Test voltage by received level. */
  readonly rssi: readonly { readonly levelDbm: number; readonly voltageV: number }[];
  readonly xpic?: boolean;
  /** Most loss of the IF cable that the unit equalizes, at its highest IF. */
  readonly ifLimit?: { readonly lossDb: number; readonly frequencyHz: number };
  /** Lowest voltage at which the unit starts. */
  readonly leastSupplyV?: number;
  /** Branching network of an all-indoor radio. */
  readonly branching?: { readonly filterDb: number; readonly passDb: number };
  /** Turned by 90 degrees for the other polarization; false: it follows the antenna, whose feed is turned. */
  readonly turns?: boolean;
  /** As makers tell their units apart; IF cards drive some of them. */
  readonly generation?: string;
  /** Traffic port of an all-outdoor unit; the indoor side needs its like. */
  readonly port?: PortType;
}

/** A unit is made for one sub-band: its range in the low half and in the high half. */
export interface SubBand {
  readonly name: string;
  readonly low: FrequencyRange;
  readonly high: FrequencyRange;
}

/** What an antenna states of its mounting and of the load it is. */
export interface AntennaMount {
  readonly interface?: string;
  /** Whether units and couplers may sit on its back. */
  readonly direct?: boolean;
  /** Polarization of its port; either: set by turning the unit or the feed. */
  readonly takes?: "vertical" | "horizontal" | "either";
  readonly weightKg?: number;
  /** Drag over the frontal area. */
  readonly windCoefficient?: number;
  /** The other band of a dual-band antenna. */
  readonly secondBand?: FrequencyRange;
}

export type CableKind = "coaxial" | "ethernet" | "fibre";

export interface Cable {
  readonly name: string;
  readonly title?: string;
  readonly orderCode?: string;
  readonly kind?: CableKind;
  readonly loss: readonly { readonly lossDbPerM: number; readonly frequencyHz?: number }[];
  /** Both conductors together, direct current. */
  readonly loopOhmPerM?: number;
  readonly longestM?: number;
  readonly connector?: string;
  readonly line?: LineFacts;
}

/** What a cable or feeder is to the structure that it runs down. */
export interface LineFacts {
  readonly kgPerM?: number;
  readonly diameterM?: number;
}

/** Steel that the design adds to a structure. */
export interface Mount {
  readonly title: string;
  readonly massKg: number;
  /** Turned to the wind. */
  readonly areaM2?: number;
  /** Undefined: with the site's highest antenna. */
  readonly heightM?: number;
}

/** How one end is mounted and connected. */
export interface Installation {
  readonly mounting?: "direct" | "separate";
  /** Sub-band of the units, as stated. */
  readonly subBand?: string;
  readonly cable?: Cable;
  /** As stated; undefined: estimated. */
  readonly cableLengthM?: number;
  /** Brackets, pipes and other steel of the end, as stated. */
  readonly brackets?: readonly { readonly title: string; readonly count: number }[];
  readonly deliveries?: readonly Delivery[];
  /** IF ports as stated, in the order of the branches. */
  readonly ifPorts: readonly PortClaim[];
}

/** What is ordered, as far as parts of a design are called. */
export type PartKind =
  | "unit"
  | "antenna"
  | "coupler"
  | "feeder"
  | "cable"
  | "connector"
  | "grounding kit"
  | "termination"
  | "mount"
  | "patch cable"
  | "chassis"
  | "card";

/** Of parts at an end of a hop or at a site. */
export interface Delivery {
  readonly state: "ordered" | "delivered";
  /** YYYY-MM-DD, as stated. */
  readonly date?: string;
  /** Undefined: all of them. */
  readonly of?: PartKind;
  readonly remark?: string;
}

export interface PortClaim {
  /** Name of the chassis at the site; undefined: the only one. */
  readonly chassis?: string;
  readonly slot: number;
  /** From 1. */
  readonly port: number;
}

export type SlotKind = "controller" | "traffic" | "fan" | "power";

export interface Chassis {
  readonly name: string;
  readonly title?: string;
  readonly orderCode?: string;
  readonly rackUnits?: number;
  readonly slots: readonly { readonly from: number; readonly to: number; readonly kind: SlotKind }[];
  /** Most that all cards and units fed through it may draw. */
  readonly supplyW?: number;
  /** Of the empty chassis. */
  readonly drawsW?: number;
  /** Most heat its fan carries away. */
  readonly heatLimitW?: number;
  readonly air?: "left-to-right" | "right-to-left" | "front-to-back" | "back-to-front";
  /** Fan and power cards that it does not work without; of a kind that is not named, one where there are slots for it. */
  readonly needs?: readonly ChassisNeed[];
  /** A controller that is part of the chassis counts as one, without a card. */
  readonly controllerBuiltIn?: true;
  /** Its own, beside those of its cards; IF ports are on cards. */
  readonly ports?: readonly { readonly count: number; readonly type: Exclude<PortType, "IF"> }[];
  readonly weightKg?: number;
}

export interface ChassisNeed {
  readonly count: number;
  readonly kind: "fan" | "power";
}

export type CardKind =
  | "controller"
  | "if"
  | "ethernet"
  | "aggregation"
  | "tdm"
  | "circuit-emulation"
  | "auxiliary"
  | "fan"
  | "power";

export type PortType =
  | "IF"
  | "FE"
  | "GE"
  | "2.5GE"
  | "10GE"
  | "E1-75"
  | "E1-120"
  | "STM-1-electrical"
  | "STM-1-optical"
  | "order-wire"
  | "data"
  | "alarm-in"
  | "alarm-out"
  | "sync";

export interface Card {
  readonly name: string;
  readonly title?: string;
  readonly orderCode?: string;
  readonly kind?: CardKind;
  /** Slots it goes into; undefined: those that its kind usually has. */
  readonly slotKind?: SlotKind;
  /** Slots that it covers, the one that is stated and those above it; undefined: one. */
  readonly slotCount?: number;
  /** The feed of the chassis comes in at this card: it counts as a power card beside what else it is. */
  readonly supplyBuiltIn?: true;
  readonly ports: readonly { readonly count: number; readonly type: PortType; readonly powered: boolean }[];
  readonly xpic?: boolean;
  /** With what a port of it pairs for XPIC: another port of the card, or a card in the next slot. */
  readonly pairs?: "within" | "neighbour";
  /** Most that its powered ports give together. */
  readonly powerBudgetW?: number;
  /** Of an IF card: generations of outdoor units that it drives. */
  readonly drives?: readonly string[];
  /** Of an IF card: widths of channel that it works in; one width has both ends alike. */
  readonly channelWidths?: readonly FrequencyRange[];
  readonly highestModulation?: string;
  /** Most that one IF port carries. */
  readonly portCapacityBps?: number;
  /** What goes over the air: the far end has to take it. */
  readonly carries?: "packet" | "tdm" | "both";
  readonly drawsW?: number;
  readonly weightKg?: number;
}

export interface InstalledChassis {
  /** Told apart at its site by this. */
  readonly name: string;
  readonly chassis?: Chassis;
  /** Chassis of one row stand beside each other, in the order of the text. */
  readonly row?: string;
  /** Cards with their slots, in the order of the text. */
  readonly slots: readonly { readonly slot: number; readonly card?: Card }[];
  /** Cards without a slot: placed automatically. */
  readonly loose: readonly { readonly card: Card; readonly count: number }[];
  /** Whether the design asks for a second controller. */
  readonly controllersProtected: boolean;
}

export interface Battery {
  readonly capacityAh: number;
  readonly nominalV: number;
  /** Share that may be taken; undefined: 0.8. */
  readonly depthOfDischarge?: number;
  /** Hours that the site must stand without mains. */
  readonly autonomyH?: number;
}

export interface SiteEquipment {
  readonly site: string;
  /** Free height for the equipment of this design. */
  readonly rackUnits?: number;
  /** Horizontal run of cables between structure and rack. */
  readonly cableRunM?: number;
  readonly chassis: readonly InstalledChassis[];
  /** What the -48 V plant gives. */
  readonly plantW?: number;
  readonly battery?: Battery;
  /** Alarm contacts by number, counted over all auxiliary cards of the site. */
  readonly alarms: readonly { readonly input: number; readonly title: string; readonly closed: boolean }[];
  /** Traffic ports that services take. */
  readonly services: readonly Service[];
  /** Direct current to power cards, as stated. */
  readonly feeds?: readonly Feed[];
  /** Panels that join E1 of 75 ohm to E1 of 120 ohm: a part of the rack, no card. */
  readonly baluns?: readonly { readonly title: string; readonly count: number }[];
  readonly wind?: { readonly basicSpeedMPerS: number; readonly terrain: "0" | "I" | "II" | "III" | "IV" };
  /** What the structure may bear of this design's antennas. */
  readonly mounts?: readonly Mount[];
  readonly windLimitN?: number;
  readonly deliveries?: readonly Delivery[];
  readonly weightLimitKg?: number;
}

export interface Service {
  readonly title: string;
  readonly count: number;
  readonly type: PortType;
  /** Of its ports the first ones, as stated; the others are proposed. */
  readonly ports?: readonly PortClaim[];
}

/** A fuse of a feed and the power card or unit behind it. */
export interface Feed {
  /** `A`, `B` */
  readonly name: string;
  /** Number in the distribution. */
  readonly fuse: number;
  readonly ratingA?: number;
  /** Undefined: the only chassis. */
  readonly chassis?: string;
  /** Undefined: of a chassis with its supply built in. */
  readonly slot?: number;
  /** Hop of the unit that it feeds; undefined: it feeds a chassis. */
  readonly hop?: string;
}

/** So many spares of a kind of part, by share of the parts in use. */
export interface SpareRule {
  readonly kind: string;
  readonly sharePercent: number;
  readonly least: number;
}
