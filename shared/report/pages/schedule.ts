/** What a hop puts on the air, as an administration asks for it: a column a transmission. */
import type { Hop } from "../../design/design.js";
import type { HopResult } from "../../evaluate/account/result.js";
import { bandwidth, dbi, dbm, decibels, degrees, frequency, metres } from "../../format/numbers.js";
import { formatDms } from "../../geodesy/coordinates.js";
import { type Transmission, transmissionsOf } from "../../licence/transmissions.js";
import type { Section, Table, TableRow } from "../document/document.js";

type Row = readonly [label: string, (sent: Transmission) => string | undefined];

const ROWS: readonly Row[] = [
  ["Frequency", ({ frequencyHz }) => frequency(frequencyHz)],
  ["Necessary bandwidth", ({ bandwidthHz }) => told(bandwidthHz, bandwidth)],
  ["Emission", ({ emission }) => emission],
  ["Polarization", ({ polarization }) => polarization],
  ["Greatest EIRP", ({ greatestEirpDbm }) => eirpWords(greatestEirpDbm)],
  ["EIRP, judged mode", ({ judgedEirpDbm }) => eirpWords(judgedEirpDbm)],
  ["EIRP, under power control", ({ controlledEirpDbm }) => eirpWords(controlledEirpDbm)],
  ["Antenna", ({ antenna }) => antenna],
  ["Gain", ({ gainDbi }) => told(gainDbi, dbi)],
  ["Beamwidth", ({ beamwidthDeg }) => told(beamwidthDeg, angle)],
  ["Height above ground", ({ antennaHeightM }) => told(antennaHeightM, metres)],
  [
    "Antenna of the standby unit",
    ({ standby }) =>
      standby && [standby.antenna, told(standby.antennaHeightM, metres)].filter(Boolean).join(" at "),
  ],
  ["Azimuth, true north", ({ azimuthDeg }) => told(azimuthDeg, angle)],
  ["Elevation", ({ elevationDeg }) => told(elevationDeg, angle)],
  [
    "Position (WGS84)",
    ({ position }) =>
      position &&
      `${formatDms(position.latitudeDeg, "latitude")} ${formatDms(position.longitudeDeg, "longitude")}`,
  ],
];

/** More transmissions than these stand in a table for each end. */
const MOST_COLUMNS = 4;

export function scheduleSection(hop: Hop, result: HopResult): Section[] {
  const sent = transmissionsOf(hop, result);
  if (sent.length === 0) return [];
  const tables = sent.length <= MOST_COLUMNS ? [sent] : [...Map.groupBy(sent, ({ site }) => site).values()];
  return [
    {
      id: "schedule",
      title: "Schedule of frequencies",
      blocks: [
        ...tables.map((those) => scheduleTable(those, result.carriers.length > 1)),
        {
          type: "paragraph",
          text: "The necessary bandwidth is that of the channel; the letters behind it are a setting (emission-class). The same for the whole network: hopwright list channels.",
        },
      ],
    },
  ];
}

/** A column a transmission. */
function scheduleTable(sent: readonly Transmission[], several: boolean): Table {
  return {
    type: "table",
    columns: [
      { title: "Transmission from" },
      ...sent.map(({ site, carrier }) => ({ title: several ? `${site}, carrier ${carrier}` : site })),
    ],
    rows: ROWS.flatMap(([label, of]): TableRow[] => {
      const cells = sent.map((one) => of(one));
      if (cells.every((cell) => cell === undefined)) return [];
      return [{ cells: [{ text: label, mark: "quiet" }, ...cells.map((cell) => cell ?? "–")] }];
    }),
  };
}

/** Both units that licences are written in. */
function eirpWords(powerDbm: number | undefined): string | undefined {
  return powerDbm === undefined ? undefined : `${dbm(powerDbm)}, ${decibels(powerDbm - 30)}W`;
}

function told(value: number | undefined, write: (value: number) => string): string | undefined {
  return value === undefined ? undefined : write(value);
}

function angle(angleDeg: number): string {
  return degrees(angleDeg).replace(" deg", "°");
}
