/**
 * Heads of columns, as people write them: `Antenna height A [m]`, `tx_lat`, `Sendefrequenz (MHz)`. A head is the words
 * of a field, the end of the hop that it speaks of, and a unit, in any order and spelling.
 */
import { type Dimension, findUnit } from "../units/units.js";
import type { Field, FieldKey } from "./field.js";
import { FIELDS } from "./fields.js";

/** Which end: by letter or place, or by the direction that one row tells. */
export type EndMark = "a" | "b" | "tx" | "rx";

export interface Head {
  readonly field: Field;
  readonly end?: EndMark;
  /** Symbol of the unit as the language has it. */
  readonly unit?: string;
  /** EPSG code or datum named in the head. */
  readonly reference?: string;
}

const MARKS: ReadonlyMap<string, EndMark> = new Map([
  ...marks("a", "a 1 near local from start von begin first origin primary i source sitea enda nearend"),
  ...marks("b", "b 2 far remote to stop nach second destination ii siteb endb farend dest end"),
  ...marks("tx", "tx transmit transmitter transmitting sender t xmit xmtr"),
  ...marks("rx", "rx receive receiver receiving empfanger empfaenger r rcvr"),
]);

function marks(mark: EndMark, words: string): (readonly [string, EndMark])[] {
  return words.split(" ").map((word) => [word, mark] as const);
}

/** Units in heads, where case and signs are anybody's. */
const UNIT_WORDS: ReadonlyMap<string, readonly [symbol: string, dimension: Dimension]> = new Map(
  Object.entries<readonly [string, Dimension]>({
    m: ["m", "length"],
    meter: ["m", "length"],
    metre: ["m", "length"],
    meters: ["m", "length"],
    metres: ["m", "length"],
    magl: ["m", "length"],
    masl: ["m", "length"],
    km: ["km", "length"],
    cm: ["cm", "length"],
    mm: ["mm", "length"],
    ft: ["ft", "length"],
    feet: ["ft", "length"],
    mi: ["mi", "length"],
    miles: ["mi", "length"],
    hz: ["Hz", "frequency"],
    khz: ["kHz", "frequency"],
    mhz: ["MHz", "frequency"],
    ghz: ["GHz", "frequency"],
    dbm: ["dBm", "power level"],
    dbw: ["dBW", "power level"],
    dbi: ["dBi", "gain"],
    dbd: ["dBd", "gain"],
    db: ["dB", "ratio"],
    deg: ["deg", "angle"],
    degree: ["deg", "angle"],
    degrees: ["deg", "angle"],
    "°": ["deg", "angle"],
    grad: ["deg", "angle"],
    "bit/s": ["bit/s", "bit rate"],
    kbps: ["kbit/s", "bit rate"],
    "kbit/s": ["kbit/s", "bit rate"],
    mbps: ["Mbit/s", "bit rate"],
    "mbit/s": ["Mbit/s", "bit rate"],
    "mb/s": ["Mbit/s", "bit rate"],
    mbit: ["Mbit/s", "bit rate"],
    gbps: ["Gbit/s", "bit rate"],
    "gbit/s": ["Gbit/s", "bit rate"],
    percent: ["%", "percentage"],
    "%": ["%", "percentage"],
  }),
);

/** The symbol that a word of a head or a cell stands for. */
export function unitOf(word: string): { readonly symbol: string; readonly dimension: Dimension } | undefined {
  const exact = findUnit(word);
  const known = UNIT_WORDS.get(word.toLowerCase());
  if (known) return { symbol: known[0], dimension: known[1] };
  return exact && { symbol: exact.unit.symbol, dimension: exact.dimension };
}

const BY_SPELLING: ReadonlyMap<string, readonly Field[]> = bySpelling();

function bySpelling(): Map<string, Field[]> {
  const found = new Map<string, Field[]>();
  for (const field of FIELDS)
    for (const spelling of field.spellings) found.set(spelling, [...(found.get(spelling) ?? []), field]);
  return found;
}

/** What stands in no list of spellings is no field; undefined then. */
export function readHead(written: string): Head | undefined {
  const { words, unit, reference } = partsOf(written);
  const found = fieldOf(words, unit?.dimension);
  if (!found) return undefined;
  const { field, end } = found;
  const fits = unit && (field.figure?.dimension === unit.dimension || isAngle(field.key, unit.dimension));
  if (unit && !fits && field.figure) return undefined;
  return { field, end, unit: fits && field.figure ? unit.symbol : undefined, reference };
}

function isAngle(key: FieldKey, dimension: Dimension): boolean {
  return dimension === "angle" && (key === "latitude" || key === "longitude");
}

interface Parts {
  readonly words: readonly string[];
  readonly unit?: { readonly symbol: string; readonly dimension: Dimension };
  readonly reference?: string;
}

const REFERENCE =
  /\b(?:epsg[ :_-]*\d{4,5}|wgs[ _-]?84|nad[ _-]?(?:27|83)|etrs[ _-]?89|ed[ _-]?50|osgb(?:[ _-]?36)?|gda[ _-]?(?:94|2020)|psad[ _-]?56|pulkovo|tokyo|ch1903\+?|dhdn|sirgas(?:2000)?)\b/i;

function partsOf(written: string): Parts {
  let text = written
    .normalize("NFKD")
    .replace(/\p{M}+/gu, "")
    .replace(/ß/g, "ss")
    .replace(/ø/gi, "o");
  const spaced = text.replace(/_/g, " ");
  const reference = REFERENCE.exec(spaced)?.[0];
  text = reference === undefined ? spaced : spaced.replace(reference, " ");
  let unit: Parts["unit"];
  const taken = (word: string) => {
    const found = unitOf(word.trim());
    if (found) unit ??= found;
    return found !== undefined;
  };
  text = text.replace(/[[(]([^\])]*)[\])]/g, (_, inside: string) =>
    inside
      .split(/[\s,;]+/)
      .filter((word) => word !== "" && !taken(word))
      .join(" ")
      .replace(/^/, " ")
      .concat(" "),
  );
  text = text.replace(/\b(?:in|\/|,)\s*([A-Za-z°%/]+)\s*$/, (all, word: string) => (taken(word) ? " " : all));
  const words = text
    .split(/[^\p{L}\p{N}°%+]+/u)
    .flatMap((word) => (unitOf(word) ? [word] : word.replace(/([a-z\d])([A-Z])/g, "$1 $2").split(" ")))
    .map((word) => word.toLowerCase())
    .filter((word) => word !== "");
  const last = words.at(-1);
  if (unit === undefined && words.length > 1 && last !== undefined && !MARKS.has(last) && taken(last))
    words.pop();
  return { words, unit, reference };
}

function fieldOf(
  words: readonly string[],
  dimension: Dimension | undefined,
): { readonly field: Field; readonly end?: EndMark } | undefined {
  const whole = choose(words.join(""), dimension, undefined);
  if (whole && !(words.length === 1 && MARKS.has(words[0]!) && !ONLY_FIELD.has(words[0]!)))
    return { field: whole };
  for (const [at, word] of words.entries()) {
    const end = MARKS.get(word);
    if (end === undefined) continue;
    const rest = words.filter((_, i) => i !== at).join("");
    const field = choose(rest === "" ? standsAlone(word) : rest, dimension, end);
    if (field) return { field, end };
    // "Site A latitude": the word for the site only says of which end it speaks.
    const bare = words.filter((other, i) => i !== at && !SITE_WORDS.has(other)).join("");
    const other = choose(bare === "" && words.length > 1 ? "site" : bare, dimension, end);
    if (other) return { field: other, end };
  }
  return gluedMark(words, dimension);
}

/** `From` and `To` head sites; a letter or figure alone heads nothing. */
function standsAlone(mark: string): string {
  return mark.length > 2 || mark === "to" ? "site" : "";
}

/** One letter may be a coordinate as well as the mark of an end. */
const ONLY_FIELD: ReadonlySet<string> = new Set(["e", "n", "x", "y", "h", "f"]);
const SITE_WORDS: ReadonlySet<string> = new Set([
  "site",
  "station",
  "end",
  "standort",
  "side",
  "location",
  "node",
]);

/** `lat1`, `heightb`, `siteA`. */
function gluedMark(words: readonly string[], dimension: Dimension | undefined) {
  const joined = words.join("");
  const [, stem, mark] = /^(.{2,})([12ab])$/.exec(joined) ?? [];
  const end = mark === undefined ? undefined : MARKS.get(mark);
  const field = end && choose(stem!, dimension, end);
  return field ? { field, end } : undefined;
}

function choose(word: string, dimension: Dimension | undefined, end: EndMark | undefined): Field | undefined {
  if (word === "") return undefined;
  const direct = BY_SPELLING.get(word) ?? [];
  const byUnit = dimension === undefined ? undefined : BY_UNIT[`${word} ${dimension}`];
  if (byUnit) return FIELDS.find(({ key }) => key === byUnit);
  // A length is the way of a hop, and `lange` in German a longitude as well; a mark says that it is no hop's.
  const fitting = direct.filter(
    (field) =>
      (dimension === undefined ||
        field.figure?.dimension === dimension ||
        isAngle(field.key, dimension) ||
        !field.figure) &&
      (end === undefined || field.of.includes("end") || field.key === "title"),
  );
  const wanted = dimension === "length" ? fitting.filter(({ figure }) => figure !== undefined) : fitting;
  return wanted[0] ?? fitting[0];
}

/** Words that are one thing with this unit and another without. */
const BY_UNIT: Readonly<Record<string, FieldKey>> = {
  "antenna length": "antennaHeight",
  "ant length": "antennaHeight",
  "dish length": "antennaDiameter",
  "structure length": "structureHeight",
  "east length": "easting",
  "north length": "northing",
  "e length": "easting",
  "n length": "northing",
  "x length": "easting",
  "y length": "northing",
  "easting length": "easting",
  "northing length": "northing",
  "channel frequency": "channelWidth",
  "mode frequency": "modeWidth",
  "tx frequency": "frequency",
  "transmit frequency": "frequency",
};
