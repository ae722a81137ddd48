/** One demand for reading: what it asks and gets, hop by hop, and each failure that touches it. */
import { worstFailures } from "../../../shared/demands/failure-effects.js";
import type {
  DemandResult,
  DemandsResult,
  FailureResult,
  HopOfRoute,
} from "../../../shared/demands/result.js";
import { outageBounded } from "../../../shared/format/bounds.js";
import { bitRate } from "../../../shared/format/numbers.js";
import {
  availabilityHeld,
  goesTo,
  latencyHeld,
  latencyParts,
  NONE,
  ratesWords,
  slowerLatency,
} from "../../../shared/words/demand-figures.js";
import { elementsWords, elementWords, someOf } from "../../../shared/words/demands.js";
import type { Paint } from "../streams.js";
import { setInColumns } from "./columns.js";
import { demandLines, heldWords } from "./demand-lines.js";
import { safe } from "./safe.js";

export function* demandText(
  one: DemandResult,
  result: DemandsResult,
  width: number,
  paint: Paint,
): Iterable<string> {
  const { demand, hops } = one;
  const { name, title, from = NONE } = demand;
  yield `${paint("bold", safe(`${name}${title === undefined ? "" : ` (${title})`}: ${from} > ${goesTo(one)}, committed on its hops ${ratesWords(one)}`))}\n`;
  yield* demandLines(one, worstFailures(result).get(name), width, Number.POSITIVE_INFINITY);
  const available = availabilityHeld(one);
  if (available) yield `    available: ${heldWords(available)}\n`;
  const latency = latencyHeld(one);
  if (latency) yield `    latency: ${heldWords(latency)}: ${latencyParts(slowerLatency(one)!)}\n`;
  if (hops.length > 0) {
    yield "\n";
    yield* setInColumns(
      COLUMNS,
      hops.map((hop) => hopRow(hop)),
      paint,
    );
  }
  const touching = result.failures.filter(({ lost, moved }) => lost.includes(name) || moved.includes(name));
  if (touching.length > 0) yield "\n";
  for (const [words, failures] of effectsOn(one, touching))
    yield `${words}: ${safe(
      elementsWords(
        failures.map(({ element }) => element),
        Number.POSITIVE_INFINITY,
      ),
    )}\n`;
  for (const { element, overloaded } of touching)
    if (overloaded.length > 0)
      yield `without ${safe(`${elementWords(element)} overloaded: ${someOf(overloaded.map(({ hop }) => hop))}`)}\n`;
}

/** What it is lost without is told above but for the sites where it begins and ends. */
function effectsOn({ demand: { name }, singlePoints }: DemandResult, touching: readonly FailureResult[]) {
  const between = new Set(singlePoints.map(elementWords));
  const lost = touching.filter(
    (failure) => failure.lost.includes(name) && !between.has(elementWords(failure.element)),
  );
  const moved = touching.filter((failure) => failure.moved.includes(name));
  return (
    [
      ["at its ends, lost without", lost],
      ["moves without", moved],
    ] as const
  ).filter(([, of]) => of.length > 0);
}

const COLUMNS = [
  { head: "hop" },
  { head: "needed", align: "right" },
  { head: "mode" },
  { head: "carries", align: "right" },
  { head: "out", align: "right" },
  { head: "share by length", align: "right" },
] as const;

function hopRow({
  hop,
  neededBps,
  modulation,
  bps,
  outagePercent,
  sharePercent,
}: HopOfRoute): readonly string[] {
  const share = (percent: number | undefined) =>
    percent === undefined ? NONE : outageBounded({ timePercent: percent });
  return [
    hop,
    bitRate(neededBps),
    modulation ?? "none",
    bps === undefined ? NONE : bitRate(bps),
    share(outagePercent),
    share(sharePercent),
  ];
}
