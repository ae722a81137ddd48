/** Transmissions that several lists hold: registers of neighbours, or of a whole and a part of it, share rows. */
import type { OthersTable } from "./table.js";

/** Rows of one table that count as rows of a table before it. */
export interface Repeated {
  /** Places of the rows. */
  readonly rows: ReadonlySet<number>;
  /** Place of the table, among those given, that holds most of them. */
  readonly most: number;
}

const known = new WeakMap<OthersTable, { readonly before: readonly OthersTable[]; readonly is: Repeated }>();

/**
 * Rows that a table before holds too: place, frequency, bandwidth, polarization, direction, receiver, EIRP and days alike,
 * as closely as registers write them. Of a transmission as many count as the one list holds that holds most.
 * @returns of each table, in their order; the same object as long as the tables before are the same
 */
export function repeatedOver(tables: readonly OthersTable[]): readonly Repeated[] {
  return tables.map((table, place) => {
    const before = tables.slice(0, place);
    const found = known.get(table);
    if (found && found.before.length === place && found.before.every((one, i) => one === before[i]))
      return found.is;
    const is = repeatedIn(table, before);
    // A list that is named twice is one table, first without any before it and then behind itself.
    if (!before.includes(table)) known.set(table, { before, is });
    return is;
  });
}

function repeatedIn(table: OthersTable, before: readonly OthersTable[]): Repeated {
  const rows = new Set<number>();
  if (before.length === 0) return { rows, most: 0 };
  const own = countsOf(table);
  const shares = before.map((one, place) => {
    let share = 0;
    for (const [key, indexes] of countsOf(one)) {
      for (const row of own.get(key)?.slice(0, indexes.length) ?? []) {
        rows.add(row);
        share++;
      }
    }
    return { place, share };
  });
  const [most] = shares.toSorted((a, b) => b.share - a.share);
  return { rows, most: most!.place };
}

/** Rows by what they send. */
function countsOf(table: OthersTable): ReadonlyMap<string, readonly number[]> {
  const found = new Map<string, number[]>();
  for (let row = 0; row < table.count; row++) {
    const key = keyOf(table, row);
    const rows = found.get(key);
    if (rows) rows.push(row);
    else found.set(key, [row]);
  }
  return found;
}

/** To some ten metres, 1 kHz, 0.1 dB and 0.1 degrees. */
const STEPS = {
  latitudeDeg: 1e-4,
  longitudeDeg: 1e-4,
  receiverLatitudeDeg: 1e-4,
  receiverLongitudeDeg: 1e-4,
  frequencyHz: 1e3,
  bandwidthHz: 1e3,
  eirpDbm: 0.1,
  azimuthDeg: 0.1,
  elevationDeg: 0.1,
  firstDay: 1,
  lastDay: 1,
} as const;
const STEPPED = Object.entries(STEPS) as readonly [keyof typeof STEPS, number][];

function keyOf(table: OthersTable, row: number): string {
  const parts = STEPPED.map(([figure, step]) => Math.round(table.figures[figure][row]! / step));
  return `${parts.join(" ")} ${table.polarization(row)}`;
}
