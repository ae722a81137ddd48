import type { RowStanding } from "../spectrum/standing.js";
import type { Acceptance } from "./acceptance.js";
import type { AsBuilt, Measurement } from "./as-built.js";
import type { Antenna, Coupler, Feeder, Radio, RadioMode } from "./catalogue.js";
import type { Climate } from "./climate.js";
import type { Demand, TrafficAtSite, TrafficTerms } from "./demand.js";
import type { Installation, SiteEquipment, SpareRule } from "./equipment.js";
import type { InterferenceAtSite, InterferenceTerms, OthersList, PowerControl } from "./interference.js";
import type { Absence, Licence, LicenceTerms } from "./licence.js";
import type { Objective } from "./objective.js";
import type { Severity } from "./severity.js";
import type { SheetTemplate } from "./sheets.js";
import type { State } from "./state.js";

/**
 * The resolved design: what the text means, with names replaced by the things they name, templates and
 * defaults applied, every quantity in SI units (angles in degrees). Plain immutable data, and
 * incomplete on purpose: while somebody types, most of it may be missing, so what a design need not
 * have is optional here and the rules say what is missing.
 *
 * No source positions stand in it, so that a result computed from it can be cached by content. A fact is
 * found again in the text by its address (`address.ts`).
 */

export interface Position {
  readonly latitudeDeg: number;
  readonly longitudeDeg: number;
}

export type HalfOfBand = "high" | "low";
/** `slant`: linear at 45 degrees. */
export type Polarization = "horizontal" | "vertical" | "slant";

export interface Site {
  readonly name: string;
  readonly title?: string;
  /** When it stands; undefined: at all times. */
  readonly state?: State;
  readonly position?: Position;
  /** A position is stated that cannot be read, as the text tells. */
  readonly positionUnreadable?: true;
  /** Ground level above sea level as stated; undefined: taken from terrain. */
  readonly groundM?: number;
  readonly structure?: { readonly kind: string; readonly heightM: number };
  /** EPSG code of the projected system that the position is stated in; undefined: in degrees. */
  readonly gridEpsg?: number;
  /** How one gets there, and who lets in: read by people alone. */
  readonly address?: string;
  readonly access?: string;
  readonly contact?: string;
}

/** Something on the path that the terrain does not know. */
export interface Obstacle {
  readonly title?: string;
  /** Height above ground at its place. */
  readonly heightM: number;
  /** Distance along the path from the first end of the hop. */
  readonly distanceM: number;
}

/** A stretch of the path whose surface reflects. */
export interface Surface {
  readonly kind: SurfaceKind;
  /** Distances along the path from the first end of the hop. */
  readonly fromM: number;
  readonly toM: number;
  /** Above sea level; undefined: mean height of the profile there. */
  readonly heightM?: number;
}

export type SurfaceKind = "water" | "sea" | "flat" | "rough";

/** Rain attenuation exceeded for 0.01 % of the average year, measured on this path at another frequency. */
export interface MeasuredRain {
  readonly attenuation001Db: number;
  readonly frequencyHz: number;
  /** Undefined: the hop's own. */
  readonly polarization?: Exclude<Polarization, "slant">;
}

/** What a design has agreed on about its rules. */
export interface Policy {
  /** In the order of the text: one with a severity sets it, one that is required may not be accepted or passed over. */
  readonly statements: readonly {
    readonly rule: string;
    readonly severity?: Severity;
    readonly required: boolean;
  }[];
}

/** How units or coupler meet the antenna: on its back, or on the pole with a waveguide. */
export type Mounting = "direct" | "separate";

/** An antenna of an end beside its first, with what joins units to it. */
export interface FurtherAntenna {
  readonly antenna?: Antenna;
  /** Antenna centre above ground. */
  readonly heightM?: number;
  readonly coupler?: Coupler;
  readonly mounting?: Mounting;
  /** What leads to it alone; undefined: as to the first. */
  readonly feeder?: Feeder;
  readonly feederLengthM?: number;
}

export interface HopEnd {
  readonly site: Site;
  readonly antenna?: Antenna;
  /** Antenna centre above ground. */
  readonly antennaHeightM?: number;
  readonly coupler?: Coupler;
  readonly mounting?: Mounting;
  /** Its own, where it states one: see `radio/arrangement-pairs.ts`. */
  readonly arrangement?: Arrangement;
  /** Main and standby units are on each other's arms. */
  readonly armsExchanged?: true;
  /** Second, third and fourth antenna, in this order up to the last that is stated. */
  readonly further?: readonly FurtherAntenna[];
  /** Unless nothing of it is stated. */
  readonly installation?: Installation;
  readonly feeder?: Feeder;
  readonly feederLengthM?: number;
  /** Half of the band in which this end transmits. */
  readonly transmits?: HalfOfBand;
  /** Centre frequency that this end transmits: stated, or of the channel and half. */
  readonly transmitFrequencyHz?: number;
  /** Transmit power stated for this end, in place of the mode's. */
  readonly transmitPowerDbm?: number;
  /** Further loss between radio and antenna. */
  readonly extraLossDb?: number;
  /** Undefined: nothing is stated of it. */
  readonly powerControl?: PowerControl;
  /** Second antenna of space diversity. */
  readonly diversityAntenna?: Antenna;
  readonly diversityHeightM?: number;
  /** Beside the plan: no figure of the hop rests on it. Undefined: nothing is stated. */
  readonly asBuilt?: AsBuilt;
}

export interface Channel extends RowStanding {
  readonly plan: string;
  readonly bandwidthHz: number;
  readonly number: number;
  /** Centre frequencies of the channel in both halves. */
  readonly lowHz?: number;
  readonly highHz?: number;
}

/** A channel whose number is open: the ends transmit as on that of the plan of which least arrives. */
export interface OpenChannel {
  readonly plan: string;
  readonly bandwidthHz: number;
  /** Of the channel that is shown meanwhile, the highest in frequency. */
  readonly number: number;
  /** How many there are to choose from. */
  readonly count: number;
  /** Lowest frequency of them all: the widest Fresnel zone. */
  readonly lowestHz: number;
}

/** Channel of a carrier beside the first, and its distance from the first. */
export type FurtherChannel = Channel & { readonly separationHz: number };

interface Arrangement {
  /** Canonical words, for example `1+0` or `1+1 hot-standby`. */
  readonly name: string;
}

/** Surveyed on the ground, or read off a map or a raster, which has voids. */
export type SurveySource = "field" | "map";

export interface Hop {
  readonly name: string;
  readonly title?: string;
  /** When it stands: its own, else that of the site that comes last; undefined: at all times. */
  readonly state?: State;
  /** The state is that of a site. */
  readonly stateFromSites?: true;
  /** In the order of the text; a hop with fewer or more than two ends in the text is not evaluated. */
  readonly ends: readonly [HopEnd, HopEnd];
  readonly channel?: Channel;
  /** Plan and width are stated, the number is still to be chosen; then there is no `channel`. */
  readonly openChannel?: OpenChannel;
  /** A channel is stated that no plan has; the text's own problem tells why. */
  readonly channelUnknown?: true;
  /** What is stated and cannot be used, as the text's own problems tell; undefined: nothing. */
  readonly unusable?: readonly UnusableFact[];
  readonly polarization?: Polarization;
  /** Of each end that states none of its own; where both do, that of the first. */
  readonly arrangement: Arrangement;
  /** Name of the hop of the other band of a dual-band pair. */
  readonly pairedWith?: string;
  readonly radio?: Radio;
  /** Modes in use, lowest rate first. One for a fixed mode, several for an adaptive range. */
  readonly modes: readonly RadioMode[];
  readonly climate: Climate;
  /** Facts of the climate that the hop itself states; the others are the network's. */
  readonly ownClimate?: readonly (keyof Climate)[];
  /** Channels of the carriers behind the first (frequency diversity, several carriers), in the order of the text. */
  readonly furtherChannels?: readonly FurtherChannel[];
  /** By how much interference raises every threshold. */
  readonly degradationDb?: number;
  /** Letters of its emissions behind the bandwidth, as stated: `D7W`. */
  readonly emissionClass?: string;
  /** Most EIRP that an end may have. */
  readonly mostEirpDbm?: number;
  /** Mean time to repair, travel included. */
  readonly repairHours?: number;
  readonly measuredRain?: MeasuredRain;
  readonly surfaces?: readonly Surface[];
  readonly objective?: Objective;
  readonly obstacles: readonly Obstacle[];
  /** File of a surveyed profile, relative to the design's folder; distances counted from the first end. */
  readonly surveyFile?: string;
  /** True when the survey's distances count from the second end. */
  readonly surveyReversed?: boolean;
  /** How the survey was made; undefined: not stated, taken as from a map. */
  readonly surveySource?: SurveySource;
  /** Stretches of unknown ground shorter than this are bridged by a straight line; undefined: none is. */
  readonly bridgeGapsM?: number;
  /** In the order of the text, with a gap for one that cannot be read; no figure of the hop rests on it. */
  readonly measured?: readonly (Measurement | undefined)[];
  readonly accepts: readonly Acceptance[];
  /** The design's, by which the hop is judged. */
  readonly policy?: Policy;
}

/** A fact by its word, of the hop or of the end at a site. */
export interface UnusableFact {
  readonly fact: string;
  readonly site?: string;
  /** It is marked as still to be chosen. */
  readonly open?: true;
  /** From the defaults: the text tells it there, and not at the hop. */
  readonly inherited?: true;
}

/** A hop that has no two ends yet, so that nothing is computed of it, and of which something is asked all the same. */
export interface UnformedHop extends Pick<Hop, "name" | "arrangement" | "accepts" | "policy"> {
  readonly objective: Objective;
  /** Of the ends that there are. */
  readonly siteNames: readonly string[];
}

export interface Design {
  readonly title?: string;
  /** Folders and files of terrain, as written, relative to the file that names them (absolute after resolving by the host). */
  readonly terrain: readonly string[];
  /** Folders with the user's copies of the ITU-R maps, absolute after resolving. */
  readonly maps?: readonly string[];
  readonly policy?: Policy;
  readonly sites: ReadonlyMap<string, Site>;
  readonly hops: ReadonlyMap<string, Hop>;
  readonly unformed?: ReadonlyMap<string, UnformedHop>;
  /** Names of sites at which hops end that are not among `hops`, since they are not finished or not sound. */
  readonly sitesOfUnfinished?: ReadonlySet<string>;
  /** What stands at the sites, by their names; sites with nothing stated are not in it. */
  readonly equipment?: ReadonlyMap<string, SiteEquipment>;
  /** What is accepted at sites, by their names: beside the sites, so that no hop's result depends on it. */
  readonly acceptedAt?: ReadonlyMap<string, readonly Acceptance[]>;
  readonly spares?: readonly SpareRule[];
  /** Grounding kits along a cable: one for each such length beside those at its ends. */
  readonly groundingEveryM?: number;
  /** What is written on cables: text with words in braces; undefined: the usual rule. */
  readonly labels?: string;
  /** Day that compass bearings on sheets are for, ISO date. */
  readonly magneticDay?: string;
  readonly interference?: InterferenceTerms;
  /** By the names of sites; those that state nothing are not in it. */
  readonly interferenceAt?: ReadonlyMap<string, InterferenceAtSite>;
  readonly others?: readonly OthersList[];
  /** In the order of the text; undefined: none is stated. */
  readonly licences?: readonly Licence[];
  /** Hops that licences name and that do not stand, by their names. */
  readonly absentHops?: ReadonlyMap<string, Absence>;
  readonly licenceTerms?: LicenceTerms;
  /** Templates of sheets, in the order of the text; undefined: none is stated. */
  readonly sheets?: readonly SheetTemplate[];
  /** What must be carried, by name, those that stand. */
  readonly demands?: ReadonlyMap<string, Demand>;
  /** What the network says of all demands. */
  readonly traffic?: TrafficTerms;
  /** By the names of sites; those that are nothing to demands are not in it. */
  readonly trafficAt?: ReadonlyMap<string, TrafficAtSite>;
}
