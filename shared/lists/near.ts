/** Places within a few metres of each other, found without looking at all of them; places may be added meanwhile. */
import type { LatLon } from "../geodesy/coordinates.js";
import { inverse } from "../geodesy/geodesic.js";

/** Two surveys of one site, or one rounded to seconds, are rarely further apart; two sites rarely as near. */
const SAME_PLACE_M = 5;

/** Metres a degree of latitude, at least. */
const M_PER_DEG = 110_500;

export class Places<T> {
  private readonly cells = new Map<string, { readonly at: LatLon; readonly what: T }[]>();
  private readonly rowDeg: number;

  constructor(private readonly withinM = SAME_PLACE_M) {
    this.rowDeg = withinM / M_PER_DEG;
  }

  add(at: LatLon, what: T): void {
    const key = this.key(this.row(at), this.column(at, this.row(at)));
    const cell = this.cells.get(key);
    if (cell) cell.push({ at, what });
    else this.cells.set(key, [{ at, what }]);
  }

  /** The nearest first. */
  near(at: LatLon): readonly { readonly what: T; readonly distanceM: number }[] {
    const found: { readonly what: T; readonly distanceM: number }[] = [];
    const middle = this.row(at);
    for (let row = middle - 1; row <= middle + 1; row++) {
      const column = this.column(at, row);
      const columns = new Set([-1, 0, 1].map((by) => this.wrapped(column + by, row)));
      for (const one of columns)
        for (const place of this.cells.get(this.key(row, one)) ?? []) {
          const { distanceM } = inverse({ from: at, to: place.at });
          if (distanceM <= this.withinM) found.push({ what: place.what, distanceM });
        }
    }
    return found.sort((a, b) => a.distanceM - b.distanceM);
  }

  private row({ latitudeDeg }: LatLon): number {
    return Math.floor(latitudeDeg / this.rowDeg);
  }

  /** Columns of a row, each at least as wide as the distance looked for. */
  private columnsOf(row: number): number {
    const deg = Math.min(90, (Math.abs(row) + 1) * this.rowDeg);
    return Math.max(1, Math.floor((360 * Math.cos((deg * Math.PI) / 180)) / this.rowDeg));
  }

  private column({ longitudeDeg }: LatLon, row: number): number {
    const count = this.columnsOf(row);
    return Math.min(count - 1, Math.floor(((longitudeDeg + 180) / 360) * count));
  }

  private wrapped(column: number, row: number): number {
    const count = this.columnsOf(row);
    return ((column % count) + count) % count;
  }

  private key(row: number, column: number): string {
    return `${row} ${column}`;
  }
}
