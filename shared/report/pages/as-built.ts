/** What was measured beside what was promised, and what was built beside what was planned. */
import { type BuiltFigure, builtFigures } from "../../as-built/differences.js";
import { type HeldHopReadings, type HeldReading, heldReadings } from "../../as-built/held.js";
import { deviationWords, placeWords, readingPlace, signatureWords } from "../../as-built/words.js";
import type { AsBuilt, Serial } from "../../design/as-built.js";
import type { Hop, HopEnd } from "../../design/design.js";
import type { SitePlan } from "../../equipment/site-plan.js";
import type { HopResult } from "../../evaluate/account/result.js";
import { dbm, decibels, fixed, metres, signed } from "../../format/numbers.js";
import type { Block, Inline, Section, Table, TableRow } from "../document/document.js";
import { testVoltage } from "./hop-equipment.js";

/** Of a hop; nothing where nothing was measured and nothing is said of what was built. */
export function asBuiltSection(hop: Hop, result: HopResult): Section[] {
  const held = heldReadings(hop, result);
  const blocks = [...(held ? readingBlocks(hop, held) : []), ...builtTables(hop, result)];
  if (blocks.length === 0) return [];
  return [{ id: "as-built", title: "Measured and as built", blocks }];
}

function readingBlocks(hop: Hop, held: HeldHopReadings): Block[] {
  const { readings, unmeasured, windowDb } = held;
  const several = unmeasured.some(({ carrier }) => carrier > 1);
  const missing = unmeasured.map((one) => placeWords(one, several));
  return [
    {
      type: "paragraph",
      text: `Promised is the median in clear air at full power; within ${decibels(windowDb)} above and below a reading agrees. Figures of this hop rest on the design, not on readings.`,
    },
    ...(readings.length === 0 ? [] : [readingTable(hop, readings)]),
    ...(missing.length === 0
      ? []
      : [{ type: "paragraph", text: `Not measured yet: ${missing.join("; ")}.` } as const]),
  ];
}

function readingTable(
  hop: Hop,
  readings: readonly HeldReading[],
  caption = "Levels measured against what is promised",
): Table {
  return {
    type: "table",
    caption,
    columns: [
      { title: "At" },
      { title: "Mode" },
      { title: "Promised", align: "right" },
      { title: "Measured", align: "right" },
      { title: "Test voltage", align: "right" },
      { title: "Difference" },
      { title: "Stands" },
      { title: "On" },
      { title: "By" },
      { title: "Remark" },
    ],
    rows: readings.map(
      ({ measured, mode, lessDb, ...one }): TableRow => ({
        cells: [
          readingPlace({ ...measured, mode: undefined }),
          mode?.modulation ?? measured.mode ?? "–",
          mode === undefined ? "–" : dbm(mode.levelDbm),
          dbm(measured.levelDbm),
          testVoltage(hop, measured.levelDbm) ?? "–",
          lessDb === undefined ? "–" : deviationWords(lessDb),
          standing(one),
          measured.on,
          measured.by ?? "–",
          measured.remark ?? "–",
        ],
      }),
    ),
  };
}

/** How a reading stands: a word of the report's tones, and why. */
function standing({
  verdict,
  signatures,
  agreeing,
}: Pick<HeldReading, "verdict" | "signatures" | "agreeing">): Inline {
  switch (verdict) {
    case "agrees":
      return { text: "agrees", mark: "good" };
    case "replaced":
      return { text: "replaced by a later one", mark: "quiet" };
    case "power control":
      return { text: "with power control: held against nothing", mark: "unjudged" };
    case "before change":
      return { text: "from before a change: measure again", mark: "warning" };
    case "not of the hop":
      return { text: "of nothing that the hop has", mark: "error" };
    case "not known":
      return { text: "no level is computed there", mark: "unjudged" };
    case "high":
      return { text: "too high", mark: "warning" };
    case "low": {
      if (agreeing !== undefined) return { text: `low while another ${agreeing.of} agrees`, mark: "warning" };
      if (signatures.length === 0) return { text: "too low", mark: "warning" };
      return { text: `too low, as if ${signatureWords(signatures)}`, mark: "warning" };
    }
  }
}

function builtTables(hop: Hop, result: HopResult): Block[] {
  const ends = ([0, 1] as const).flatMap((at) => {
    const end = hop.ends[at];
    return end.asBuilt ? [{ end, built: end.asBuilt, azimuthDeg: result.geometry?.[at].azimuthDeg }] : [];
  });
  return ends.map(({ end, built, azimuthDeg }) =>
    builtTable(`${end.site.name} as built${builtWhen(built)}`, end, built, azimuthDeg),
  );
}

function builtTable(caption: string, end: HopEnd, built: AsBuilt, azimuthDeg: number | undefined): Table {
  return { type: "table", caption, columns: BUILT_COLUMNS, rows: builtRows(end, built, azimuthDeg) };
}

/** What was built at a site, and the readings made there, hop by hop. */
export function builtAtSite({ site, ends }: SitePlan, results: ReadonlyMap<string, HopResult>): Section[] {
  const blocks = ends.flatMap(({ hop, end }): Block[] => {
    const result = results.get(hop.name);
    if (result === undefined) return [];
    const at = hop.ends[0].site.name === site.name ? 0 : 1;
    const built = end.asBuilt;
    const readings = (heldReadings(hop, result)?.readings ?? []).filter(
      ({ measured, verdict }) => measured.site === site.name && verdict !== "replaced",
    );
    return [
      ...(built === undefined
        ? []
        : [
            builtTable(
              `${hop.name}, as built${builtWhen(built)}`,
              end,
              built,
              result.geometry?.[at].azimuthDeg,
            ),
          ]),
      ...(readings.length === 0 ? [] : [readingTable(hop, readings, `${hop.name}, levels measured here`)]),
    ];
  });
  return blocks.length === 0 ? [] : [{ id: "as-built", title: "Measured and as built", blocks }];
}

const BUILT_COLUMNS = [
  { title: "What" },
  { title: "Planned", align: "right" },
  { title: "As built", align: "right" },
  { title: "Difference" },
] as const;

function builtWhen({ on, by }: AsBuilt): string {
  const words = [on === undefined ? undefined : `on ${on}`, by === undefined ? undefined : `by ${by}`];
  const said = words.filter((word) => word !== undefined).join(" ");
  return said === "" ? "" : `, ${said}`;
}

/** What is stated as built, beside what is planned. */
function builtRows(end: HopEnd, built: AsBuilt, azimuthDeg: number | undefined): TableRow[] {
  const { antenna, serials = [] } = built;
  return [
    ...(antenna === undefined
      ? []
      : [
          {
            cells: [
              "Antenna",
              end.antenna?.name ?? "–",
              antenna.name,
              antenna.name === end.antenna?.name
                ? ({ text: "as planned", mark: "good" } as const)
                : ({ text: "another one", mark: "warning" } as const),
            ],
          },
        ]),
    ...builtFigures(end, built, azimuthDeg).map(figureRow),
    ...serials.map((one) => ({ cells: [`Serial number, ${serialOf(one)}`, "–", one.number, "–"] })),
  ];
}

const FIGURES: Readonly<Record<BuiltFigure["fact"], string>> = {
  height: "Height of the antenna",
  "diversity-height": "Height of the diversity antenna",
  azimuth: "Azimuth, true",
  "cable-length": "Length of the cable",
};

function figureRow({ fact, planned, built, by, agrees }: BuiltFigure): TableRow {
  const write = (value: number) => (fact === "azimuth" ? `${fixed(value, 2)}°` : metres(value));
  const apart: Inline =
    by === undefined
      ? "–"
      : agrees
        ? { text: "as planned", mark: "good" }
        : { text: signed(write, by), mark: "warning" };
  return { cells: [FIGURES[fact], planned === undefined ? "–" : write(planned), write(built), apart] };
}

/** `unit, standby`, `diversity antenna` */
function serialOf({ of, branch, carrier }: Serial): string {
  const parts = [of.replace("-", " "), branch, carrier === undefined ? undefined : `carrier ${carrier}`];
  return parts.filter((part) => part !== undefined).join(", ");
}
