/** The page that holds all readings of the network against what was promised, by band, radio and branch. */
import {
  BIAS_DB,
  type Calibration,
  type CalibrationBy,
  type CalibrationGroup,
  FAULT_DB,
  FEW_READINGS,
} from "../../as-built/calibration.js";
import { readingPlace } from "../../as-built/words.js";
import { dbm, decibels, fixed, signed } from "../../format/numbers.js";
import type { Block, Inline, Page, Section, Table } from "../document/document.js";

export interface CalibrationPageInput {
  readonly name: string;
  readonly title?: string;
  readonly calibration: Calibration;
  readonly pageOfHop: (hop: string) => string | undefined;
  readonly up?: { readonly text: string; readonly page: string };
  readonly colophon: string;
}

export function calibrationPage(input: CalibrationPageInput): Page {
  const { name, title, calibration, up, colophon } = input;
  const all = calibration.groups.find(({ by }) => by === "all");
  const few = all !== undefined && all.count < FEW_READINGS;
  return {
    name,
    title: "Measured against promised",
    ...(title !== undefined && { subtitle: title }),
    up: up && { text: up.text, to: { page: up.page } },
    keyFigures: [
      {
        label: "Readings",
        value: String(calibration.readings.length),
        ...(few && { note: "few: they prove nothing yet" }),
      },
      {
        label: "Bias",
        ...(all
          ? { value: signed((one) => fixed(one, 1), all.meanDb), unit: "dB" }
          : { value: "–", note: "no reading to hold" }),
      },
      {
        label: "Spread",
        ...(all?.spreadDb === undefined
          ? { value: "–", note: "one reading has none" }
          : { value: fixed(all.spreadDb, 1), unit: "dB" }),
      },
    ],
    sections: [
      {
        id: "what",
        title: "What it tells",
        blocks: [{ type: "paragraph", text: TOLD }, ...leftOut(calibration)],
      },
      ...groupSections(calibration),
      ...readingSection(input),
    ],
    colophon,
  };
}

const TOLD = `Measured less promised, in dB: negative where less arrives. Bias is the mean, spread the standard deviation about it. A group is called off where its bias is beyond ${decibels(BIAS_DB)} and beyond twice what chance leaves of it (the spread over the root of the count); of fewer than ${FEW_READINGS} readings nothing is said. All hops of one radio off alike point to its catalogue entry, or to a setting that all of them have; one band alone to its losses; one branch to the coupler. The bounds are ours, no source.`;

function leftOut({ leftOut: { faults, unusable } }: Calibration): Block[] {
  const told = [
    faults > 0
      ? `${faults} with the sign of a side lobe or turned feed, or more than ${decibels(FAULT_DB)} off: faults of a hop, told on its page`
      : undefined,
    unusable > 0
      ? `${unusable} replaced by later ones, made with power control, from before a change, or of nothing that the hop has`
      : undefined,
  ].filter((one) => one !== undefined);
  return told.length === 0 ? [] : [{ type: "paragraph", text: `Left out: ${told.join("; ")}.` }];
}

const TITLES: Readonly<Record<CalibrationBy, string>> = {
  all: "All readings",
  band: "By band",
  radio: "By radio",
  branch: "By branch",
};

function groupSections({ groups }: Calibration): Section[] {
  return [...Map.groupBy(groups, ({ by }) => by)].map(([by, those]) => ({
    id: by,
    title: TITLES[by],
    blocks: [groupTable(by, those)],
  }));
}

function groupTable(by: CalibrationBy, groups: readonly CalibrationGroup[]): Table {
  return {
    type: "table",
    columns: [
      ...(by === "all" ? [] : [{ title: by[0]!.toUpperCase() + by.slice(1) }]),
      { title: "Readings", align: "right" },
      { title: "Bias", align: "right" },
      { title: "Spread", align: "right" },
      { title: "Stands" },
    ],
    rows: groups.map(({ name, count, meanDb, spreadDb, stands }) => ({
      cells: [
        ...(by === "all" ? [] : [name]),
        String(count),
        signed(decibels, meanDb),
        spreadDb === undefined ? "–" : decibels(spreadDb),
        STANDS[stands],
      ],
    })),
  };
}

const STANDS: Readonly<Record<CalibrationGroup["stands"], Inline>> = {
  few: { text: "few readings", mark: "unjudged" },
  "as promised": { text: "as promised", mark: "good" },
  off: { text: "off as a whole", mark: "warning" },
};

function readingSection({ calibration: { readings }, pageOfHop }: CalibrationPageInput): Section[] {
  if (readings.length === 0) return [];
  const table: Table = {
    type: "table",
    searched: true,
    columns: [
      { title: "Hop" },
      { title: "At" },
      { title: "Band" },
      { title: "Radio" },
      { title: "Promised", align: "right" },
      { title: "Measured", align: "right" },
      { title: "Difference", align: "right" },
      { title: "On" },
    ],
    rows: readings.map(({ hop, reading: { measured, mode }, moreDb, band, radio }) => {
      const page = pageOfHop(hop);
      return {
        cells: [
          page === undefined ? hop : { text: hop, to: { page } },
          readingPlace(measured),
          band,
          radio ?? "–",
          dbm(mode!.levelDbm),
          dbm(measured.levelDbm),
          signed(decibels, moreDb),
          measured.on,
        ],
        find: hop,
      };
    }),
  };
  return [{ id: "readings", title: "Readings", blocks: [table] }];
}

/** `42 readings, bias -0.6 dB, spread 1.2 dB; radio R18 is off as a whole` */
export function calibrationWords({ groups, readings }: Calibration): string {
  const [all] = groups;
  const off = groups.filter(({ stands, by }) => stands === "off" && by !== "all");
  const count = `${readings.length} ${readings.length === 1 ? "reading" : "readings"}`;
  if (all === undefined) return `${count} that can be held against what is promised`;
  const spread = all.spreadDb === undefined ? "" : `, spread ${decibels(all.spreadDb)}`;
  const few = all.count < FEW_READINGS ? ", which are few" : "";
  const told = off.map(({ by, name }) => `${by} ${name}`).join(", ");
  const whole = off.length === 0 ? "" : `; off as a whole: ${told}`;
  return `${count}${few}, bias ${signed(decibels, all.meanDb)}${spread}${whole}`;
}
