/** Interference at the receivers of a hop for programs: figures alone, the senders by name or by the line of their list. */
import type { Polarization } from "../../../shared/design/design.js";
import type { Entry } from "../../../shared/interference/entry.js";
import { type PathTerms, pathTermsOf } from "../../../shared/interference/entry-path.js";
import type { InterferenceAt } from "../../../shared/interference/receiver-result.js";
import { isOwn, type Owner } from "../../../shared/interference/station.js";

/** More than so many entries are counted. */
const MOST_ENTRIES = 20;

/** Whose a transmission is: a hop and the site that it sends from, or a line of one of the lists of others. */
export interface InterfererOutput {
  readonly hop?: string;
  readonly site?: string;
  /** Place of the list among those of the design, from 1. */
  readonly list?: number;
  /** As messages call it. */
  readonly file?: string;
  readonly line?: number;
  readonly name?: string;
}

export interface InterferenceEntryOutput {
  readonly from: InterfererOutput;
  readonly frequencyHz: number;
  readonly offsetHz: number;
  readonly relation: Entry["relation"];
  readonly distanceM: number;
  readonly leavesOffAxisDeg: number;
  readonly arrivesOffAxisDeg: number;
  readonly eirpDbm: number;
  /** By how much power control lets it down while nothing fades. */
  readonly reductionDb: number;
  /** Of both antennas together. */
  readonly discriminationDb: number;
  /** `bound`: the least loss over any terrain, since the terrain is not known. */
  readonly lossBy: "profile" | "bound";
  readonly longTermLossDb: number;
  readonly shortTermLossDb: number;
  /** Undefined: a table of C/I counts. */
  readonly filterDb?: number;
  /** At the receiver, before its filters. */
  readonly levelDbm: number;
  readonly toNoiseDb: number;
  readonly fullToNoiseDb: number;
  readonly shortToNoiseDb: number;
  /** As it counts in the sum. */
  readonly inSumToNoiseDb: number;
}

export interface CoLocatedOutput {
  readonly from: InterfererOutput;
  readonly offsetHz: number;
  /** Between the axes of the antennas; undefined: one is not known. */
  readonly apartDeg?: number;
  /** I/N by the coupling loss that is stated; undefined: none is, and it is not judged. */
  readonly toNoiseDb?: number;
}

export interface InterferenceOutput {
  readonly site: string;
  readonly frequencyHz: number;
  readonly polarization?: Polarization;
  readonly noiseDbm: number;
  readonly noiseAssumed: boolean;
  /** What the losses were computed with, as stated or taken. */
  readonly terms: PathTerms;
  /** I/N of the long-term sum, with power control as it usually is and with full power; undefined: there is none. */
  readonly toNoiseDb?: number;
  readonly fullToNoiseDb?: number;
  /** Of the strongest alone. */
  readonly shortToNoiseDb?: number;
  /** Bound of all that was not computed one by one; it is in the sums. */
  readonly cutToNoiseDb?: number;
  readonly degradationDb: number;
  readonly fullDegradationDb: number;
  readonly shortDegradationDb: number;
  readonly singleDegradationDb: number;
  /** The strongest first, of so many the first ones. */
  readonly entryCount: number;
  readonly entries: readonly InterferenceEntryOutput[];
  readonly coLocatedCount: number;
  readonly coLocated: readonly CoLocatedOutput[];
}

export function interferenceOutput(at: InterferenceAt): InterferenceOutput {
  const { receiver, entries, coLocated } = at;
  return {
    site: receiver.place.site ?? "",
    frequencyHz: receiver.frequencyHz,
    polarization: receiver.polarization,
    noiseDbm: receiver.noiseDbm,
    noiseAssumed: receiver.noiseAssumed === true,
    terms: pathTermsOf(at.terms),
    toNoiseDb: at.toNoiseDb,
    fullToNoiseDb: at.fullToNoiseDb,
    shortToNoiseDb: at.shortToNoiseDb,
    cutToNoiseDb: at.cutToNoiseDb,
    degradationDb: at.degradationDb,
    fullDegradationDb: at.fullDegradationDb,
    shortDegradationDb: at.shortDegradationDb,
    singleDegradationDb: at.singleDegradationDb,
    entryCount: entries.length,
    entries: entries.slice(0, MOST_ENTRIES).map(entryOutput),
    coLocatedCount: coLocated.length,
    coLocated: coLocated.slice(0, MOST_ENTRIES).map(({ sender, offsetHz, apartDeg, toNoiseDb }) => ({
      from: interfererOf(sender),
      offsetHz,
      apartDeg,
      toNoiseDb,
    })),
  };
}

function entryOutput({ sender, path, ...entry }: Entry): InterferenceEntryOutput {
  return {
    from: interfererOf(sender),
    frequencyHz: sender.frequencyHz,
    offsetHz: entry.offsetHz,
    relation: entry.relation,
    distanceM: path.distanceM,
    leavesOffAxisDeg: entry.leavesOffAxisDeg,
    arrivesOffAxisDeg: entry.arrivesOffAxisDeg,
    eirpDbm: sender.eirpDbm,
    reductionDb: sender.reductionDb,
    discriminationDb: entry.discriminationDb,
    lossBy: path.by,
    longTermLossDb: path.longTermLossDb,
    shortTermLossDb: path.shortTermLossDb,
    filterDb: entry.filterDb,
    levelDbm: entry.levelDbm,
    toNoiseDb: entry.toNoiseDb,
    fullToNoiseDb: entry.fullToNoiseDb,
    shortToNoiseDb: entry.shortToNoiseDb,
    inSumToNoiseDb: entry.inSumToNoiseDb,
  };
}

function interfererOf({ of, place }: { of: Owner; place: { readonly site?: string } }): InterfererOutput {
  if (isOwn(of)) return { hop: of.hop, site: place.site };
  return { list: of.list + 1, file: of.file, line: of.line, name: of.name };
}
