/** Senders and receivers of a hop of the design: one for each channel, polarization and antenna of an end. */
import type { Antenna, RadioMode } from "../design/catalogue.js";
import type { Hop, HopEnd } from "../design/design.js";
import type { InterferenceAtSite, InterferenceTerms, ModeSpectrum } from "../design/interference.js";
import { sidesOf } from "../equipment/branches.js";
import { branchesAt, standsOf } from "../equipment/stands.js";
import { unitsOf } from "../equipment/units.js";
import type { EndGeometry } from "../evaluate/account/path-result.js";
import type { HopResult } from "../evaluate/account/result.js";
import { newTrace } from "../evaluate/account/trace.js";
import { transmitPowerDbm } from "../evaluate/level/levels.js";
import { type EndParts, terminal } from "../evaluate/level/terminal.js";
import { factsAt } from "../radio/arrangement-pairs.js";
import { modeThreshold, noisePowerDbm, symbolRateHz } from "../radio/threshold.js";
import type { FilterShape } from "../spectrum/filter-shape.js";
import { type AntennaView, antennaView, type ReferenceChoice, type ViewedAntenna } from "./antenna-view.js";
import type { ModeTable, Place, Receiver, Sender, StationEntries } from "./station.js";

export interface HopStations {
  readonly senders: readonly Sender[];
  readonly receivers: readonly Receiver[];
}

/** What the network says that stations rest on. */
export interface StationTerms {
  readonly terms: InterferenceTerms;
  readonly atSite: (site: string) => InterferenceAtSite | undefined;
  /** Points of a pattern that stands in a file, where it was read. */
  readonly patternOf: (antenna: Antenna) => Antenna["pattern"];
}

/** Of receivers that state none; common practice, no source. */
export const ASSUMED_NOISE_FIGURE_DB = 5;
/** Of the raised cosine, where a catalogue states no roll-off; what the rest of the program takes a channel for. */
const ASSUMED_ROLL_OFF = 0.15;

const NONE: HopStations = { senders: [], receivers: [] };

/** What of a hop by itself its stations rest on: where its antennas are and look, and its levels where they are known. */
export type Standing = Pick<HopResult, "geometry"> & Partial<Pick<HopResult, "directions">>;

export function stationsOf(hop: Hop, result: Standing, around: StationTerms): HopStations {
  const { geometry } = result;
  // As long as no channel is chosen it is on none.
  if (geometry === undefined || hop.openChannel !== undefined) return NONE;
  const senders: Sender[] = [];
  const receivers: Receiver[] = [];
  for (const at of [0, 1] as const) {
    const end = hop.ends[at];
    const seen = geometry.find(({ site }) => site === end.site.name);
    if (seen === undefined) continue;
    senders.push(
      ...sendersAt(hop, at, { seen, reductionDb: reductionOf(hop, hop.ends[at], result) }, around),
    );
    receivers.push(...receiversAt(hop, at, seen, around));
  }
  return { senders, receivers };
}

/** A branch of an end with what it passes at the frequency asked for. */
interface Line {
  readonly place: number;
  readonly polarization: Sender["polarization"];
  /** Of both polarizations of the hop the first or the second. */
  readonly nth: 1 | 2;
  readonly antennaNumber: number;
  readonly antenna: Antenna;
  readonly heightM: number | undefined;
  readonly radiates: boolean;
  parts(): EndParts | undefined;
  readonly frequencyHz: number;
}

/** A hop on both polarizations that does not say which is the first: it has the one and the other. */
const EITHER = { 1: "vertical", 2: "horizontal" } as const;

function linesAt(hop: Hop, at: 0 | 1, direction: "transmit" | "receive"): readonly Line[] {
  const [end, far] = [hop.ends[at], hop.ends[1 - at]!];
  const facts = factsAt(hop, end);
  const farFacts = factsAt(hop, far);
  if (facts === undefined || farFacts === undefined) return [];
  const stands = standsOf(end, facts);
  const branches = branchesAt(end, facts, sidesOf(hop)[at]);
  const units = unitsOf(hop, end, facts);
  const farUnits = direction === "receive" ? unitsOf(hop, far, farFacts) : units;
  return branches.flatMap((branch, index): Line[] => {
    const unit = units[index];
    // What it hears is what the far end sends on the same channel.
    const sends = direction === "transmit" ? unit : farUnits.find(({ place }) => place === unit?.place);
    const stand = stands[branch.antenna - 1];
    const frequencyHz = sends?.transmitHz;
    if (unit === undefined || stand?.antenna === undefined || !(frequencyHz! > 0)) return [];
    const ends = direction === "transmit" ? ([end, far] as const) : ([far, end] as const);
    return [
      {
        place: unit.place,
        polarization:
          unit.polarization ?? (facts.polarizations === 2 ? EITHER[branch.polarization] : undefined),
        nth: branch.polarization,
        antennaNumber: branch.antenna,
        antenna: stand.antenna,
        heightM: branch.antenna === 1 ? end.antennaHeightM : stand.heightM,
        radiates: branch.radiates,
        frequencyHz: frequencyHz!,
        parts: () =>
          terminal({ hop, ends, frequencyHz: frequencyHz!, trace: newTrace() }, direction, facts).parts(
            branch,
          ),
      },
    ];
  });
}

function sendersAt(
  hop: Hop,
  at: 0 | 1,
  { seen, reductionDb }: { readonly seen: EndGeometry; readonly reductionDb: number },
  around: StationTerms,
): Sender[] {
  const end = hop.ends[at];
  const powered = hop.modes.flatMap((mode) => {
    const powerDbm = transmitPowerDbm(end, mode);
    return powerDbm === undefined ? [] : [{ mode, powerDbm }];
  });
  if (powered.length === 0) return [];
  const strongest = powered.reduce((a, b) => (b.powerDbm > a.powerDbm ? b : a));
  return linesAt(hop, at, "transmit").flatMap((line): Sender[] => {
    const parts = line.radiates ? line.parts() : undefined;
    if (parts === undefined || line.heightM === undefined) return [];
    return [
      {
        key: keyOf(hop, end, line),
        of: { hop: hop.name },
        place: placeOf(line.heightM, end, seen, around),
        frequencyHz: line.frequencyHz,
        polarization: line.polarization,
        bandwidthHz: strongest.mode.bandwidthHz,
        ...viewsOf(line.antenna, parts.gainDbi, line.frequencyHz, around),
        entries: entriesOf(line.antenna, hop),
        eirpDbm: strongest.powerDbm - parts.lossDb + parts.gainDbi,
        reductionDb,
        spectrum: spectrumOf(strongest.mode, "transmitMask"),
        power: {
          modulation: strongest.mode.modulation,
          powerDbm: strongest.powerDbm,
          lossDb: parts.lossDb,
        },
      },
    ];
  });
}

function receiversAt(hop: Hop, at: 0 | 1, seen: EndGeometry, around: StationTerms): Receiver[] {
  const end = hop.ends[at];
  const mode = widest(hop.modes);
  if (mode === undefined) return [];
  const found = new Map<string, Receiver>();
  const { noiseFigureDb } = hop.radio ?? {};
  const figureDb = noiseFigureDb ?? around.terms.assumedNoiseFigureDb ?? ASSUMED_NOISE_FIGURE_DB;
  for (const line of linesAt(hop, at, "receive")) {
    const parts = line.parts();
    if (parts === undefined || line.heightM === undefined) continue;
    const key = keyOf(hop, end, line);
    const known = found.get(key);
    // Of main and standby on one antenna the one that hears more counts.
    if (known !== undefined && known.lossDb <= parts.lossDb) continue;
    found.set(key, {
      key,
      of: { hop: hop.name },
      place: placeOf(line.heightM, end, seen, around),
      frequencyHz: line.frequencyHz,
      polarization: line.polarization,
      bandwidthHz: mode.bandwidthHz,
      ...viewsOf(line.antenna, parts.gainDbi, line.frequencyHz, around),
      entries: entriesOf(line.antenna, hop),
      lossDb: parts.lossDb,
      noiseDbm: noisePowerDbm(symbolRateHz(mode.bandwidthHz), figureDb),
      noise: { figureDb, symbolRateHz: symbolRateHz(mode.bandwidthHz) },
      ...(noiseFigureDb === undefined && { noiseAssumed: true as const }),
      selectivity: spectrumOf(mode, "selectivity"),
      ...tablesOf(hop),
    });
  }
  return [...found.values()];
}

function entriesOf({ name, patternFile }: Antenna, { radio }: Hop): StationEntries {
  return {
    antenna: name,
    ...(patternFile !== undefined && { patternInFile: true as const }),
    ...(radio !== undefined && { radio: radio.name }),
  };
}

function keyOf(hop: Hop, end: HopEnd, { place, polarization, nth, antennaNumber }: Line): string {
  // Both of a pair are called slant.
  const called = `${polarization ?? "?"}${polarization === "slant" && nth === 2 ? " across" : ""}`;
  return `${hop.name} ${end.site.name} ${place} ${called} ${antennaNumber}`;
}

function placeOf(antennaM: number, end: HopEnd, seen: EndGeometry, { atSite }: StationTerms): Place {
  const { azimuthDeg, elevationDeg } = seen;
  const coastM = atSite(end.site.name)?.coastM;
  return {
    site: end.site.name,
    position: end.site.position!,
    groundM: seen.groundM,
    antennaM,
    boresight: { azimuthDeg, elevationDeg },
    ...(coastM !== undefined && { coastM }),
  };
}

function viewsOf(
  antenna: Antenna,
  gainDbi: number,
  frequencyHz: number,
  { terms, patternOf }: StationTerms,
): { readonly antenna: AntennaView; readonly antennaInSum?: AntennaView } {
  const seen = { ...antenna, pattern: patternOf(antenna), gainDbi };
  const view = (reference: ReferenceChoice) => knownView(seen, frequencyHz, reference);
  return {
    antenna: view("F.699"),
    ...(terms.sumPattern === "F.1245" && seen.pattern.length === 0 && { antennaInSum: view("F.1245") }),
  };
}

const views = new WeakMap<Antenna["pattern"], Map<string, AntennaView>>();

/** The same for the same antenna at the same frequency, so that what was computed with it is known to be the same. */
function knownView(antenna: ViewedAntenna, frequencyHz: number, reference: ReferenceChoice): AntennaView {
  let of = views.get(antenna.pattern);
  if (of === undefined) views.set(antenna.pattern, (of = new Map()));
  const { gainDbi, diameterM, beamwidthDeg, crossPolarDiscriminationDb } = antenna;
  const key = [frequencyHz, reference, gainDbi, diameterM, beamwidthDeg, crossPolarDiscriminationDb].join(
    " ",
  );
  let known = of.get(key);
  if (known === undefined) of.set(key, (known = antennaView(antenna, frequencyHz, reference)));
  return known;
}

/**
 * What power control takes off while nothing fades: as stated, else as far as the radio can where it is on; and no more
 * than the level lies above the threshold at the far end, for of a signal below it nothing is let down. Interference
 * counts in neither, so that nothing turns in a circle.
 */
export function reductionOf(
  { radio }: Pick<Hop, "radio">,
  { powerControl, site }: Pick<HopEnd, "powerControl" | "site">,
  { directions = [] }: Pick<Standing, "directions">,
): number {
  if (powerControl === undefined) return 0;
  const modes = directions.find(({ from }) => from === site.name)?.modes ?? [];
  const aboveDb = modes.map(({ receivedLevelDbm, thresholdDbm }) => receivedLevelDbm - thresholdDbm);
  // Of levels that are not known what is stated counts.
  const spareDb = aboveDb.length === 0 ? Number.POSITIVE_INFINITY : Math.max(...aboveDb);
  return Math.max(0, Math.min(spareDb, powerControl.reductionDb ?? radio?.powerControlRangeDb ?? 0));
}

/** As the catalogue has it, else a raised cosine in the symbol rate that the channel holds. */
export function spectrumOf(
  { bandwidthHz, spectrum }: Pick<RadioMode, "bandwidthHz"> & { readonly spectrum?: ModeSpectrum },
  of: "transmitMask" | "selectivity",
): FilterShape {
  const points = spectrum?.[of];
  if (points !== undefined && points.length > 0 && spectrum?.outOfOrder === undefined)
    return { kind: "points", points: fromCentre(points) };
  const rollOff = spectrum?.rollOff ?? ASSUMED_ROLL_OFF;
  return raisedCosine(bandwidthHz / (1 + rollOff), rollOff);
}

const raisedCosines = new Map<string, FilterShape>();
const MOST_REMEMBERED = 1000;

/** The same for the same figures, so that the filters of a network are few. */
function raisedCosine(symbolRateHz: number, rollOff: number): FilterShape {
  const key = `${symbolRateHz} ${rollOff}`;
  let shape = raisedCosines.get(key);
  if (shape === undefined) {
    if (raisedCosines.size >= MOST_REMEMBERED) raisedCosines.clear();
    raisedCosines.set(key, (shape = { kind: "raised-cosine", symbolRateHz, rollOff }));
  }
  return shape;
}

function tablesOf({ modes, radio }: Hop): { readonly tables?: readonly ModeTable[] } {
  const tables = modes.flatMap((mode): ModeTable[] => {
    const points = mode.spectrum?.carrierToInterference ?? [];
    const threshold = modeThreshold(mode, radio?.noiseFigureDb);
    return points.length === 0 || threshold === undefined
      ? []
      : [{ modulation: mode.modulation, thresholdDbm: threshold.thresholdDbm, points }];
  });
  return tables.length === 0 ? {} : { tables };
}

function widest(modes: readonly RadioMode[]): RadioMode | undefined {
  return modes.reduce<RadioMode | undefined>(
    (found, mode) => (found === undefined || mode.bandwidthHz > found.bandwidthHz ? mode : found),
    undefined,
  );
}

type Points = NonNullable<ModeSpectrum["selectivity"]>;

const wholes = new WeakMap<Points, Points>();

/** A mask that is told from some offset on is 0 dB at the centre, and straight from there: what passes there is what it is for. */
function fromCentre(points: Points): Points {
  if (points[0]!.offsetHz <= 0) return points;
  let whole = wholes.get(points);
  if (whole === undefined) wholes.set(points, (whole = [{ offsetHz: 0, attenuationDb: 0 }, ...points]));
  return whole;
}
