/**
 * Digital maps of the Recommendations: which file holds what, on which grid. The files belong to the ITU and are not
 * part of this project; their shapes were read in public implementations (two where not said otherwise).
 */
import { decimal } from "../units/decimal.js";
import { bilinear, gridPosition, type MapGrid } from "./p1144.js";

/** Facts of a climate. */
export type MapFact = "logK" | "dN75" | "dN1" | "terrainRoughnessM" | "rainRateMmPerH" | "rainHeightM";

/** Facts of the air that interference is computed with. */
export type AnyMapFact = MapFact | "lapseNPerKm" | "surfaceRefractivity";

/** A known shape of a file: its numbers run row after row from its first place on. */
interface MapShape {
  readonly rows: number;
  readonly columns: number;
  readonly firstLatitudeDeg: number;
  readonly latitudeStepDeg: number;
  readonly firstLongitudeDeg: number;
  readonly longitudeStepDeg: number;
}

export interface MapProduct {
  readonly fact: AnyMapFact;
  /** Name of the file, any case. */
  readonly file: string;
  readonly recommendation: string;
  readonly shape: MapShape;
  /** From the unit of the file to that of the fact. */
  toFact(value: number): number;
  /** No place on Earth has less or more, in the unit of the fact; the same limits that a design has. */
  readonly nature: readonly [number, number];
}

const southward = (rows: number, columns: number, stepDeg: number, firstLongitudeDeg: number): MapShape => ({
  rows,
  columns,
  firstLatitudeDeg: 90,
  latitudeStepDeg: -stepDeg,
  firstLongitudeDeg,
  longitudeStepDeg: stepDeg,
});

const same = (value: number) => value;

/** `hR = h0 + 0.36`, km; h0, of the map, is the mean 0 degC isotherm. Rec. ITU-R P.839-4. */
const rainHeightM = (h0Km: number) => 1000 * (h0Km + 0.36);

export const MAP_PRODUCTS: readonly MapProduct[] = [
  {
    fact: "logK",
    file: "LogK.csv",
    recommendation: "ITU-R P.530-18",
    shape: southward(721, 1441, 0.25, -180),
    toFact: same,
    nature: [-12, 0],
  },
  {
    fact: "dN75",
    file: "dN75.csv",
    recommendation: "ITU-R P.530-18",
    shape: southward(721, 1441, 0.25, -180),
    toFact: same,
    nature: [-100, 1000],
  },
  {
    fact: "rainRateMmPerH",
    file: "R001.TXT",
    recommendation: "ITU-R P.837-7",
    shape: {
      rows: 1441,
      columns: 2881,
      firstLatitudeDeg: -90,
      latitudeStepDeg: 0.125,
      firstLongitudeDeg: -180,
      longitudeStepDeg: 0.125,
    },
    toFact: same,
    nature: [0, 300],
  },
  {
    fact: "rainHeightM",
    file: "h0.txt",
    recommendation: "ITU-R P.839-4",
    shape: southward(121, 241, 1.5, 0),
    toFact: rainHeightM,
    nature: [-2000, 7000],
  },
  // Read in one implementation.
  {
    fact: "dN1",
    file: "DN65m_01d00_v1.txt",
    recommendation: "ITU-R P.453-14",
    shape: southward(241, 481, 0.75, 0),
    toFact: same,
    nature: [-2000, 200],
  },
  // Read in one implementation.
  {
    fact: "terrainRoughnessM",
    file: "gtopo_30.txt",
    recommendation: "ITU-R P.530-16",
    shape: southward(361, 721, 0.5, 0),
    toFact: same,
    nature: [0, 3000],
  },
  // Read in three implementations.
  {
    fact: "lapseNPerKm",
    file: "DN50.TXT",
    recommendation: "ITU-R P.452-18",
    shape: southward(121, 241, 1.5, 0),
    toFact: same,
    nature: [0, 157],
  },
  // Read in three implementations.
  {
    fact: "surfaceRefractivity",
    file: "N050.TXT",
    recommendation: "ITU-R P.452-18",
    shape: southward(121, 241, 1.5, 0),
    toFact: same,
    nature: [200, 450],
  },
];

export type MapRead =
  | { readonly ok: true; readonly grid: MapGrid }
  | { readonly ok: false; readonly reason: string };

/**
 * The numbers of a map file, parted by commas or blanks, a row a line.
 * @returns a reason when a value is no number, the rows are uneven, or the shape is not the one known: newer editions
 *   may have other grids, and a guess at their place would be wrong without a sign
 */
export function readMap(product: MapProduct, text: string): MapRead {
  const { rows, columns } = product.shape;
  const values = new Float64Array(rows * columns);
  let row = 0;
  for (let start = 0; start < text.length; ) {
    const newline = text.indexOf("\n", start);
    const end = newline < 0 ? text.length : newline;
    const line = text.slice(start, end).trim();
    start = end + 1;
    if (line === "") continue;
    const cells = line.split(SEPARATOR);
    if (row >= rows || cells.length !== columns)
      return unknownShape(
        product,
        row >= rows ? `more than ${rows} rows` : `${cells.length} columns in row ${row + 1}`,
      );
    for (let column = 0; column < columns; column++) {
      const value = decimal(cells[column]!);
      if (value === undefined)
        return { ok: false, reason: `row ${row + 1}, column ${column + 1}: "${cells[column]}" is no number` };
      const fact = product.toFact(value);
      if (fact < product.nature[0] || fact > product.nature[1])
        return {
          ok: false,
          reason: `row ${row + 1}, column ${column + 1}: ${cells[column]} is beyond what any place has`,
        };
      values[row * columns + column] = value;
    }
    row++;
  }
  if (row !== rows) return unknownShape(product, `${row} rows`);
  return { ok: true, grid: { ...product.shape, values } };
}

const SEPARATOR = /\s*[,;]\s*|\s+/;

function unknownShape({ shape, recommendation, file }: MapProduct, found: string): MapRead {
  return {
    ok: false,
    reason: `${found}, but ${file} of ${recommendation} has ${shape.rows} rows of ${shape.columns}; another edition is not known here`,
  };
}

/** The fact at a place, bilinear after P.1144; undefined off the map. */
export function mapValue(
  product: MapProduct,
  grid: MapGrid,
  latitudeDeg: number,
  longitudeDeg: number,
): number | undefined {
  const { row, column } = gridPosition(grid, latitudeDeg, longitudeDeg);
  const value = bilinear(grid, row, column);
  return value === undefined ? undefined : product.toFact(value);
}
