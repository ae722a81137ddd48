/** Pattern envelopes from tables: rows of angle, co-polar and cross-polar discrimination, as data sheets have them. */
import type { Antenna } from "../design/catalogue.js";
import { plainDecimal } from "../units/decimal.js";

type Points = Antenna["pattern"];

export interface PatternRow {
  readonly line: number;
  readonly cells: readonly string[];
}

/** `unread`, `angle`, `above`, `beyond`: rows left out; of the others all points are taken, and this is to be known. */
export type PatternFaultCode = "unread" | "angle" | "above" | "beyond" | "order" | "doubled";

interface PatternFault {
  readonly code: PatternFaultCode;
  readonly rows: number;
  /** Of the first of them. */
  readonly line: number;
}

export type PatternFile =
  | {
      /** Ascending by angle. */
      readonly points: Points;
      readonly faults: readonly PatternFault[];
      /** The table has levels relative to boresight, at or below 0 dB: their sign was turned. */
      readonly turned?: true;
    }
  | { readonly unusable: string };

/** No antenna is so far down anywhere; of a `pattern` in the text the same is refused. */
const MOST_DB = 120;

interface Places {
  readonly angle: number;
  readonly co: number;
  readonly cross?: number;
}

/**
 * @param rows with a line of heads or without one; then the columns are angle (degrees off boresight, 0 to 180), co-polar
 *   and cross-polar discrimination (dB below the boresight gain, not below 0), in this order
 * @param mark that parts decimals
 */
export function readPattern(rows: readonly PatternRow[], mark: "." | "," = "."): PatternFile {
  const filled = rows.filter(({ cells }) => cells.some((cell) => cell.trim() !== ""));
  if (filled.length === 0) return { unusable: "it has no rows" };
  const number = (cell: string | undefined) => {
    const text = (cell ?? "").trim();
    return plainDecimal(mark === "," ? text.replace(",", ".") : text);
  };
  const isHeaded = number(filled[0]!.cells[0]) === undefined;
  const places = isHeaded ? placesIn(filled[0]!.cells) : { angle: 0, co: 1, cross: 2 };
  if (places === undefined)
    return { unusable: "its line of heads names no angle and co-polar column (`angle`, `co`, `cross`)" };
  const faults = new Map<PatternFaultCode, { code: PatternFaultCode; rows: number; line: number }>();
  const tell = (code: PatternFaultCode, line: number) => {
    const known = faults.get(code);
    if (known) known.rows++;
    else faults.set(code, { code, rows: 1, line });
  };
  const read = filled.slice(isHeaded ? 1 : 0).flatMap(({ line, cells }) => {
    const angleDeg = number(cells[places.angle]);
    const copolarDb = number(cells[places.co]);
    const written = places.cross === undefined ? "" : (cells[places.cross] ?? "").trim();
    const crossPolarDb = written === "" ? undefined : number(written);
    const isUnread = written !== "" && crossPolarDb === undefined;
    if (angleDeg !== undefined && copolarDb !== undefined && !isUnread)
      return [{ line, angleDeg, copolarDb, crossPolarDb }];
    tell("unread", line);
    return [];
  });
  const levels = read.flatMap(({ copolarDb, crossPolarDb }) => [copolarDb, crossPolarDb ?? copolarDb]);
  const turned = levels.some((level) => level < 0) && levels.every((level) => level <= 0);
  // Minus nought is none.
  const sign = (level: number) => (turned ? 0 - level : level);
  const taken = read.flatMap(({ line, angleDeg, copolarDb, crossPolarDb }) => {
    const code =
      angleDeg < 0 || angleDeg > 180
        ? "angle"
        : sign(copolarDb) < 0 || (crossPolarDb !== undefined && sign(crossPolarDb) < 0)
          ? "above"
          : sign(copolarDb) > MOST_DB || (crossPolarDb !== undefined && sign(crossPolarDb) > MOST_DB)
            ? "beyond"
            : undefined;
    if (code !== undefined) {
      tell(code, line);
      return [];
    }
    return [
      {
        line,
        angleDeg,
        copolarDb: sign(copolarDb),
        ...(crossPolarDb !== undefined && { crossPolarDb: sign(crossPolarDb) }),
      },
    ];
  });
  if (taken.length === 0) return { unusable: "it has no row with an angle and a discrimination" };
  for (const [i, point] of taken.entries())
    if (i > 0 && point.angleDeg < taken[i - 1]!.angleDeg) tell("order", point.line);
  // Of two points of one angle the one that lets more through comes first and counts.
  const sorted = taken.toSorted((a, b) => a.angleDeg - b.angleDeg || a.copolarDb - b.copolarDb);
  const points = sorted.filter(({ angleDeg, line }, i) => {
    const isDoubled = i > 0 && sorted[i - 1]!.angleDeg === angleDeg;
    if (isDoubled) tell("doubled", line);
    return !isDoubled;
  });
  return {
    points: points.map(({ line: _, ...point }) => point),
    faults: [...faults.values()],
    ...(turned && { turned: true as const }),
  };
}

function placesIn(heads: readonly string[]): Places | undefined {
  const place = (pattern: RegExp) => {
    const at = heads.findIndex((head) => pattern.test(head.trim()));
    return at < 0 ? undefined : at;
  };
  const angle = place(/^(angle|deg|phi|theta|azimuth|off)/i);
  const cross = place(/^(cross|x[\s_-]?pol|xp)/i);
  const co = place(/^(co|discrimination|level|db)/i);
  return angle === undefined || co === undefined ? undefined : { angle, co, cross };
}
