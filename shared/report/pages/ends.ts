import type { Hop, HopEnd, Position } from "../../design/design.js";
import type { HopResult } from "../../evaluate/result.js";
import { dbm, decibels, degrees, frequency, kFactor, metres } from "../../format/numbers.js";
import { formatDms } from "../../geodesy/coordinates.js";
import type { Table, TableRow } from "../document/document.js";
import { drawnKFactor } from "../draw/profile-points.js";

type Row = readonly [string, (end: HopEnd, index: 0 | 1) => string | undefined];

/** What stands at each end and where it looks. Rows that neither end has are left out. */
export function endsTable(hop: Hop, result: HopResult): Table {
  const [first, second] = hop.ends;
  const rows: Row[] = [
    ["Site", ({ site }) => site.title],
    ["Position (WGS84)", ({ site }) => site.position && position(site.position)],
    ["Ground height a.s.l.", (_end, index) => ground(result, index)],
    [
      "Structure",
      ({ site }) => site.structure && `${site.structure.kind}, ${metres(site.structure.heightM)}`,
    ],
    ["Antenna", ({ antenna }) => antenna?.title ?? antenna?.name],
    [
      "Antenna height above ground",
      ({ antennaHeightM }) => (antennaHeightM === undefined ? undefined : metres(antennaHeightM)),
    ],
    ["Azimuth, true north", (_end, index) => degreesOf(result.geometry?.[index].azimuthDeg)],
    [
      `Elevation at ${kFactor(drawnKFactor(hop))}`,
      (_end, index) => degreesOf(result.geometry?.[index].elevationDeg),
    ],
    [
      "Coupler",
      ({ coupler, mounting }) =>
        coupler && `${coupler.title ?? coupler.name}${mounting ? `, ${mounting}` : ""}`,
    ],
    ["Feeder", (end) => feeder(end)],
    ["Diversity antenna", ({ diversityAntenna }) => diversityAntenna?.title ?? diversityAntenna?.name],
    [
      "Its height above ground",
      ({ diversityHeightM }) => (diversityHeightM === undefined ? undefined : metres(diversityHeightM)),
    ],
    ["Its feeder", (end) => diversityFeeder(end)],
    ["Further loss", ({ extraLossDb }) => (extraLossDb === undefined ? undefined : decibels(extraLossDb))],
    ["Transmits", (end) => transmits(end)],
    ...furtherChannels(hop),
    ["Power, highest mode", (_end, index) => power(result.directions, hop, index)],
    ["EIRP, highest mode", (_end, index) => eirp(result.directions, hop, index)],
    ["Greatest EIRP of any mode", (_end, index) => greatestEirp(result.directions, hop, index)],
  ];
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
  const terrain = end.terrainGroundM === undefined ? "" : `; the terrain has ${metres(end.terrainGroundM)}`;
  return `${metres(end.groundM)}, from the ${end.groundFrom}${terrain}`;
}

function degreesOf(angleDeg: number | undefined): string | undefined {
  return angleDeg === undefined ? undefined : degrees(angleDeg).replace(" deg", "°");
}

function feeder({ feeder, feederLengthM }: HopEnd): string | undefined {
  if (!feeder) return undefined;
  return `${feeder.title ?? feeder.name}${feederLengthM === undefined ? "" : `, ${metres(feederLengthM)}`}`;
}

/** The design states one feeder an end, and the levels take it for both antennas. */
function diversityFeeder(end: HopEnd): string | undefined {
  return end.diversityAntenna && end.feeder && "taken to be as the first antenna's";
}

/** A row for each channel of a carrier behind the first. */
function furtherChannels({ furtherChannels }: Hop): Row[] {
  return (furtherChannels ?? []).map(({ number, lowHz, highHz }, index) => [
    `Transmits, carrier ${index + 2}, channel ${number}`,
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

function power(directions: HopResult["directions"], hop: Hop, index: 0 | 1): string | undefined {
  const first = directions.find(({ from }) => from === hop.ends[index].site.name)?.levels[0];
  return first && dbm(first.levelDbm);
}

/** Of one carrier; where they stand on arms or antennas that differ, from the least to the greatest. */
function eirp(directions: HopResult["directions"], hop: Hop, index: 0 | 1): string | undefined {
  const direction = directions.find(({ from }) => from === hop.ends[index].site.name);
  if (direction === undefined) return undefined;
  const each = direction.carriers.map(({ eirpDbm }) => eirpDbm);
  const [least, greatest] = [dbm(Math.min(...each)), dbm(Math.max(...each))];
  return least === greatest ? greatest : `${least} to ${greatest}, by carrier`;
}

/** Of one carrier; undefined where the highest mode has the most power already. */
function greatestEirp(directions: HopResult["directions"], hop: Hop, index: 0 | 1): string | undefined {
  const direction = directions.find(({ from }) => from === hop.ends[index].site.name);
  const highest = direction?.modes.at(-1);
  if (direction === undefined || highest === undefined) return undefined;
  const strongest = direction.modes.reduce((a, b) => (b.transmitPowerDbm > a.transmitPowerDbm ? b : a));
  if (!(strongest.transmitPowerDbm > highest.transmitPowerDbm)) return undefined;
  const greatestDbm = Math.max(...direction.carriers.map(({ greatestEirpDbm }) => greatestEirpDbm));
  return `${dbm(greatestDbm)} in ${strongest.modulation}`;
}
