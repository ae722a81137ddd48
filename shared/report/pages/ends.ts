import type { Hop, HopEnd, Position } from "../../design/design.js";
import { branchesOf } from "../../equipment/branches.js";
import { GUIDE_TO_CHOOSE, guideEstimate } from "../../equipment/guide-to-choose.js";
import { leadTo } from "../../equipment/mounting.js";
import { antennasStated, isLedAlone, type Stand } from "../../equipment/stands.js";
import { turnedAt } from "../../equipment/turning.js";
import { unitsOf } from "../../equipment/units.js";
import type { CarrierEnd } from "../../evaluate/account/carrier-result.js";
import type { HopResult } from "../../evaluate/account/result.js";
import { dbm, decibels, degrees, frequency, kFactor, metres } from "../../format/numbers.js";
import { formatDms } from "../../geodesy/coordinates.js";
import { factsAt } from "../../radio/arrangement-pairs.js";
import { arrangementByName, SINGLE } from "../../radio/arrangements.js";
import { channelPlace } from "../../radio/channels.js";
import { branchName } from "../../words/wiring.js";
import { overCarriers, strongestMode } from "../carriers.js";
import type { Table, TableRow } from "../document/document.js";
import { drawnKFactor } from "../draw/profile-points.js";

type Row = readonly [string, (end: HopEnd, index: 0 | 1) => string | undefined];

/**
 * What stands at each end and where it looks, in the order in which a rigger meets it: the ground, up the cable to the
 * unit, and on to the antenna and its direction. Rows that neither end has are left out.
 */
export function endsTable(hop: Hop, result: HopResult): Table {
  const rows: Row[] = [
    ["Site", ({ site }) => site.title],
    ["Position (WGS84)", ({ site }) => site.position && position(site.position)],
    ["Ground height a.s.l.", (_end, index) => ground(result, index)],
    [
      "Structure",
      ({ site }) => site.structure && `${site.structure.kind}, ${metres(site.structure.heightM)}`,
    ],
    ["Cable", (end) => cableWords(hop, end)],
    [unitLabel(hop), (end) => unitWords(hop, end)],
    ["Transmits", (end) => transmits(end)],
    ...furtherChannels(hop),
    ["Coupler", couplerWords],
    ["Feeder", (end) => feeder(hop, end)],
    ["Further loss", ({ extraLossDb }) => (extraLossDb === undefined ? undefined : decibels(extraLossDb))],
    ["Antenna", ({ antenna }) => antenna?.title ?? antenna?.name],
    ["Antenna height above ground", ({ antennaHeightM }) => metresOf(antennaHeightM)],
    ["Azimuth, true north", (_end, index) => degreesOf(result.geometry?.[index].azimuthDeg)],
    [
      `Elevation at ${kFactor(drawnKFactor(hop))}`,
      (_end, index) => degreesOf(result.geometry?.[index].elevationDeg),
    ],
    ["Polarization", (end) => polarizations(hop, end)],
    ["Between both polarizations", (end) => turned(hop, end)],
    ...furtherAntennas(hop),
  ];
  return tableOf(hop, rows);
}

/** What each end puts on the air. It stands with the levels: nobody sets it on the mast. */
export function powerTable(hop: Hop, result: HopResult): Table | undefined {
  const table = tableOf(hop, [
    ["Power, highest mode", (_end, index) => power(result, hop, index)],
    ["EIRP, highest mode", (_end, index) => eirp(result, index, (end) => end.eirp?.highestDbm)],
    ["Greatest EIRP, licensed", (end, index) => licensedEirp(hop, result, end, index)],
  ]);
  return table.rows.length === 0 ? undefined : table;
}

function tableOf({ ends: [first, second] }: Hop, rows: readonly Row[]): Table {
  return {
    type: "table",
    columns: [{ title: "" }, { title: first.site.name }, { title: second.site.name }],
    rows: rows.flatMap(([label, value]): TableRow[] => {
      const values = [value(first, 0), value(second, 1)];
      if (values.every((one) => one === undefined)) return [];
      return [{ cells: [{ text: label, mark: "quiet" }, ...values.map((one) => one ?? "–")] }];
    }),
  };
}

function position({ latitudeDeg, longitudeDeg }: Position): string {
  return `${formatDms(latitudeDeg, "latitude")} ${formatDms(longitudeDeg, "longitude")}`;
}

function ground(result: HopResult, index: 0 | 1): string | undefined {
  const end = result.geometry?.[index];
  if (!end) return undefined;
  const terrain =
    end.terrainGroundM === undefined
      ? ""
      : `; the ${result.profile?.kind ?? "terrain"} has ${metres(end.terrainGroundM)}`;
  return `${metres(end.groundM)}, from the ${end.groundFrom}${terrain}`;
}

function degreesOf(angleDeg: number | undefined): string | undefined {
  return angleDeg === undefined ? undefined : degrees(angleDeg).replace(" deg", "°");
}

function feeder(hop: Hop, end: HopEnd): string | undefined {
  const { feeder, feederLengthM } = end;
  if (!feeder) {
    const guide = guideEstimate(hop, end);
    if (guide === undefined) return undefined;
    return `${GUIDE_TO_CHOOSE}; ${"open" in guide ? "not estimated" : `${decibels(guide.lossDb)} estimated`}`;
  }
  return feederWords({ feeder, feederLengthM });
}

function feederWords({ feeder, feederLengthM }: Pick<Stand, "feeder" | "feederLengthM">): string | undefined {
  return (
    feeder &&
    `${feeder.title ?? feeder.name}${feederLengthM === undefined ? "" : `, ${metres(feederLengthM)}`}`
  );
}

/** Rows of each antenna beside the first. Without a feeder of its own the levels take that of the end. */
function furtherAntennas(hop: Hop): Row[] {
  const facts = new Set(hop.ends.flatMap((end) => antennasStated(end).slice(1)).map(({ fact }) => fact));
  return [...facts].flatMap((fact): Row[] => {
    const standOf = (end: HopEnd) => antennasStated(end).find((one) => one.fact === fact);
    const words = fact.replace("-", " ");
    return [
      [
        `${words[0]!.toUpperCase()}${words.slice(1)}`,
        (end) => standOf(end)?.antenna?.title ?? standOf(end)?.antenna?.name,
      ],
      ["Its height above ground", (end) => metresOf(standOf(end)?.heightM)],
      ["Its coupler", (end) => couplerWords(standOf(end) ?? {})],
      ["Its feeder", (end) => furtherFeeder(hop, end, standOf(end))],
    ];
  });
}

function metresOf(heightM: number | undefined): string | undefined {
  return heightM === undefined ? undefined : metres(heightM);
}

function cableWords(hop: Hop, end: HopEnd): string | undefined {
  const { cable, cableLengthM } = end.installation ?? {};
  const times = timesWords(factsAt(hop, end)?.outdoorUnits);
  if (cable === undefined) return cableLengthM === undefined ? undefined : `${times}${metres(cableLengthM)}`;
  return `${times}${cable.title ?? cable.name}${cableLengthM === undefined ? "" : `, ${metres(cableLengthM)}`}`;
}

/** `2 x `, nothing where it is one. */
function timesWords(count: number | undefined): string {
  return count === undefined || count < 2 ? "" : `${count} x `;
}

function unitLabel({ arrangement }: Hop): string {
  return arrangementByName(arrangement.name)?.construction === "all-indoor" ? "Radio" : "Outdoor unit";
}

/** The unit of the first branch; where carriers have channels of their own, the table of units has the others. */
function unitWords(hop: Hop, end: HopEnd): string | undefined {
  const { radio } = hop;
  const [first] = unitsOf(hop, end, factsAt(hop, end) ?? SINGLE);
  const name = radio?.title ?? radio?.name;
  if (name === undefined) return undefined;
  const times = timesWords(factsAt(hop, end)?.transceivers);
  return `${times}${name}${first?.subBand === undefined ? "" : `, sub-band ${first.subBand}`}`;
}

function polarizations(hop: Hop, end: HopEnd): string | undefined {
  const units = unitsOf(hop, end, factsAt(hop, end) ?? SINGLE);
  const found = new Set(units.flatMap(({ polarization }) => polarization ?? []));
  return found.size === 0 ? undefined : [...found].join(" and ");
}

const TURNED = {
  unit: "turn the unit by 90°",
  coupler: "turn the coupler with its units by 90°",
  feed: "turn the antenna's feed by 90°",
} as const;

function turned(hop: Hop, end: HopEnd): string | undefined {
  const what = turnedAt(hop, end);
  return what && TURNED[what];
}

function couplerWords({ coupler, mounting }: Pick<HopEnd, "coupler" | "mounting">): string | undefined {
  return coupler && `${coupler.title ?? coupler.name}${mounting ? `, ${mounting}` : ""}`;
}

function furtherFeeder(hop: Hop, end: HopEnd, stand: Stand | undefined): string | undefined {
  if (stand?.antenna === undefined) return undefined;
  if (isLedAlone(stand)) return feederWords(stand);
  const isLed = leadTo(hop, end, stand) !== "none";
  return isLed && (end.feeder ?? guideEstimate(hop, end)) ? "taken to be as the first antenna's" : undefined;
}

/** A row for each channel of a carrier behind the first. */
function furtherChannels({ furtherChannels, arrangement }: Hop): Row[] {
  const facts = arrangementByName(arrangement.name) ?? SINGLE;
  const on = (place: number) =>
    branchesOf(facts)
      .filter((_, unit) => channelPlace(facts, unit) === place)
      .map(({ name }) => branchName(name))
      .join(" and ") || `carrier ${place + 1}`;
  return (furtherChannels ?? []).map(({ number, lowHz, highHz }, index) => [
    `Transmits, ${on(index + 1)}, channel ${number}`,
    ({ transmits: half }) =>
      half && transmits({ transmits: half, transmitFrequencyHz: half === "low" ? lowHz : highHz }),
  ]);
}

function transmits({
  transmits,
  transmitFrequencyHz,
}: Pick<HopEnd, "transmits" | "transmitFrequencyHz">): string | undefined {
  const half = transmits === undefined ? undefined : `${transmits} half`;
  const at = transmitFrequencyHz === undefined ? undefined : frequency(transmitFrequencyHz);
  return at === undefined ? half : half === undefined ? at : `${at}, ${half}`;
}

function power({ directions }: HopResult, hop: Hop, index: 0 | 1): string | undefined {
  const first = directions.find(({ from }) => from === hop.ends[index].site.name)?.levels[0];
  return first && dbm(first.levelDbm);
}

function licensedEirp(hop: Hop, result: HopResult, end: HopEnd, index: 0 | 1): string | undefined {
  const found = eirp(result, index, ({ licensedEirpDbm }) => licensedEirpDbm);
  const mode = strongestMode(hop, end);
  return found === undefined || mode === undefined ? found : `${found} in ${mode}`;
}

/** Of one carrier each. */
function eirp(
  { carriers }: HopResult,
  index: 0 | 1,
  figure: (end: CarrierEnd) => number | undefined,
): string | undefined {
  return overCarriers(carriers, index, (end) => {
    const found = figure(end);
    return found === undefined ? undefined : dbm(found);
  });
}
