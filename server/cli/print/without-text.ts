/** What is taken out of a design, and what that does to its demands: before the findings of what remains. */
import { bitRate } from "../../../shared/format/numbers.js";
import { elementWords, someOf } from "../../../shared/words/demands.js";
import { listed } from "../../../shared/words/lists.js";
import type { Protection, Without } from "../../findings/without.js";
import type { Paint } from "../streams.js";
import { safe } from "./safe.js";

const MISSED: Readonly<Record<Without["missing"][number]["misses"][number], string>> = {
  availability: "availability",
  availabilityWithEquipment: "availability with equipment",
  latency: "latency",
  clock: "clock",
  secondRoute: "second route",
};

/** Demands that move are told one by one up to so many. */
const MOST_MOVED = 10;

export function withoutText(out: Without, paint: Paint): string {
  const { kind, name, hops, partly, lost, moved, weakened, shifted, missing, overloaded, untouched } = out;
  const element = kind === "card" ? ({ kind, name, hops } as const) : ({ kind, name } as const);
  const what = kind === "hop" ? "" : `: ${someOf(hops, 8)} ${hops.length === 1 ? "does" : "do"} not stand`;
  const rows = [paint("bold", safe(`Without ${elementWords(element)}${what}`))];
  const add = (label: string, text: string, isGrave = false) =>
    rows.push(`  ${isGrave ? paint("red", label) : label}: ${safe(text)}`);
  if (partly.length > 0) add("taken as standing", `${listed(partly)}, with units on other cards too`);
  if (lost.length > 0) add("lost", someOf(lost, 8), true);
  for (const { hop, committedBps, carriedBps } of overloaded)
    add(
      "overloaded",
      `${hop} has ${bitRate(committedBps)} committed to carry, it carries ${bitRate(carriedBps)}`,
      true,
    );
  for (const { demand, was, is } of moved.slice(0, MOST_MOVED)) {
    const way = is === undefined ? "" : `, now over ${someOf(is, 6)} (${countOf(is)}, before ${was.length})`;
    add("moved", `${demand}${way}`);
  }
  if (moved.length > MOST_MOVED) add("moved", `${moved.length - MOST_MOVED} more`);
  for (const { demand, misses } of missing.slice(0, MOST_MOVED))
    add("misses", `${demand} its ${listed(misses.map((one) => MISSED[one]))}`, true);
  if (missing.length > MOST_MOVED) add("misses", `${missing.length - MOST_MOVED} more`);
  for (const what of ["second route", "clock", "second clock feed"] satisfies Protection[]) {
    const without = weakened.filter(({ loses }) => loses.includes(what)).map(({ demand }) => demand);
    const other = shifted.filter(({ has }) => has.includes(what)).map(({ demand }) => demand);
    if (without.length > 0) add(`without a ${what}`, someOf(without, 8));
    if (other.length > 0) add(`with another ${what}`, someOf(other, 8));
  }
  if (untouched > 0) add("as before", `${untouched} ${untouched === 1 ? "demand" : "demands"}`);
  return `${rows.join("\n")}\n\n`;
}

function countOf(hops: readonly string[]): string {
  return `${hops.length} ${hops.length === 1 ? "hop" : "hops"}`;
}
