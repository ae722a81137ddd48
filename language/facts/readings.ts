/** What a figure with a wrong or missing unit, or with a wrong sign, may have been meant as. */
import { trimmed } from "../../shared/format/numbers.js";
import { times } from "../../shared/units/as-written.js";
import { UNITS } from "../../shared/units/units.js";
import type { ValueSpec } from "../schema/types.js";
import type { TextFix } from "./fact.js";

type QuantitySpec = Extract<ValueSpec, { type: "quantity" }>;

/** What a figure usually is in one unit; both ends included. */
export interface UsualRange {
  readonly from: number;
  readonly to: number;
  readonly unit: string;
}

const known = new WeakMap<QuantitySpec, readonly UsualRange[]>();

/** As the table states them, else what its limits allow in their own unit; the commonest unit first. */
export function usualRanges(spec: QuantitySpec): readonly UsualRange[] {
  let ranges = known.get(spec);
  if (ranges === undefined) known.set(spec, (ranges = (spec.usual ?? [limitsOf(spec)]).map(parsed)));
  return ranges;
}

function parsed(written: string): UsualRange {
  const [, from, to, unit] = /^(\S+) to (\S+) (\S+)$/.exec(written)!;
  return { from: Number(from), to: Number(to), unit: unit! };
}

function limitsOf({ dimension, min, above, max, below }: QuantitySpec): string {
  const [upper, unit = UNITS[dimension][0]!.symbol] = (max ?? below ?? "Infinity").split(" ");
  const [lower] = (min ?? above ?? "-Infinity").split(" ");
  return `${lower} to ${upper} ${unit}`;
}

/** How often the trade counts the parts of one as per cent: 0.9999 for 99.99 %. */
const PER_CENT = 100;

/**
 * The likeliest first, each as it would be written; none where the figure is usual in no unit. A sign is turned only
 * where the fact has one sign alone, since else a figure that is wrong by its unit would pass as one that is small.
 * @param digits the figure as it stands
 * @param unit of the dimension, where one stands there: with it the sign alone may be wrong
 * @example readings(power, "24", "dBW") // ["24 dBm"]
 */
export function readings(spec: QuantitySpec, digits: string, unit?: string): readonly string[] {
  const number = Number(digits.replace("−", "-"));
  if (!Number.isFinite(number)) return [];
  const ranges = usualRanges(spec);
  const found = ranges.flatMap((range) => {
    if (holds(range, number)) return [{ unit: range.unit, written: `${digits} ${range.unit}` }];
    const turned = (range.from >= 0 || range.to <= 0) && holds(range, -number);
    return turned ? [{ unit: range.unit, written: `${otherSign(digits)} ${range.unit}` }] : [];
  });
  if (found.length === 0 && spec.dimension === "percentage" && number > 0 && number <= 1) {
    const percent = times(number, PER_CENT);
    if (holds(ranges[0]!, percent)) return [`${trimmed(percent, 10)} %`];
  }
  return found
    .toSorted((a, b) => Number(b.unit === unit) - Number(a.unit === unit))
    .map(({ written }) => written)
    .filter((written) => written !== `${digits} ${unit}`);
}

export function otherSign(digits: string): string {
  const unsigned = digits.replace(/^[+\-−]/, "");
  return /^[-−]/.test(digits) ? unsigned : `-${unsigned}`;
}

export function readingFixes(
  written: readonly string[],
  range: { readonly start: number; readonly end: number },
): readonly TextFix[] {
  return written.map((newText) => ({ title: `Write ${newText}`, ...range, newText }));
}

function holds({ from, to }: UsualRange, number: number): boolean {
  return from <= number && number <= to;
}
