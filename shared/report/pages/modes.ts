import type { Hop } from "../../design/design.js";
import type { DirectionResult, ModeResult } from "../../evaluate/account/level-result.js";
import type { HopResult } from "../../evaluate/account/result.js";
import { lowestJudged, sameMode } from "../../evaluate/level/judged-mode.js";
import { availabilityBounded, ESTIMATE_REMARK, outageBounded } from "../../format/bounds.js";
import { bandwidth, bitRate, dbm, decibels, frequency } from "../../format/numbers.js";
import { weakerDirection } from "../../rules/judged-modes.js";
import { degradationOrigin, isRaised } from "../../words/interference.js";
import { type Block, type Section, sentence, type Table } from "../document/document.js";
import { raisedText } from "../level-diagram.js";

/** Every mode in both directions; the one that the objective is held against stands out. */
export function modesSection(hop: Hop, result: HopResult): Section[] {
  const tables = result.directions.filter(({ modes }) => modes.length > 0);
  if (tables.length === 0) return [];
  const several = tables.some(({ modes }) => modes.length > 1);
  const judged = weakerDirection(hop, result)?.mode;
  return [
    {
      id: "modes",
      title: several ? "Modes" : "Mode",
      blocks: [
        ...(judged && several ? heldAgainst(hop, judged) : []),
        ...tables.map((direction) => modesTable(direction, judged)),
        ...raisedBy(tables),
        ...powerOnFallback(tables),
        ...(tables.some(({ modes }) => modes.some(isEstimated))
          ? [{ type: "paragraph", text: ESTIMATE_REMARK } as const]
          : []),
      ],
    },
  ];
}

function isEstimated({ availabilityAtLeastPercent, timeInUseEstimated }: ModeResult): boolean {
  return availabilityAtLeastPercent !== undefined || timeInUseEstimated === true;
}

function heldAgainst(hop: Hop, { modulation }: ModeResult): Block[] {
  const lowest = lowestJudged(hop);
  if (lowest !== undefined) return [{ type: "paragraph", text: sentence(lowest) }];
  const text =
    hop.objective === undefined
      ? `No objective asks anything of a mode; the figures of the hop are those of ${modulation}.`
      : `The objective is held against ${modulation}.`;
  return [{ type: "paragraph", text }];
}

function modesTable(
  { from, to, frequencyHz, modes }: DirectionResult,
  judged: ModeResult | undefined,
): Table {
  const timed = modes.some(({ timeInUsePercent }) => timeInUsePercent !== undefined);
  return {
    type: "table",
    caption: `${from} to ${to}, ${frequency(frequencyHz)}`,
    columns: [
      { title: "Mode" },
      { title: "Rate", align: "right" },
      { title: "Power", align: "right" },
      { title: "Received level", align: "right" },
      { title: "Threshold", align: "right" },
      { title: "Fade margin", align: "right" },
      { title: "Multipath", align: "right" },
      { title: "Rain", align: "right" },
      { title: "Availability", align: "right" },
      ...(timed ? [{ title: "In use", align: "right" } as const] : []),
    ],
    rows: modes.toReversed().map((mode) => ({
      emphasis: judged !== undefined && modes.length > 1 && sameMode(mode, judged),
      cells: [
        `${mode.modulation}, ${bandwidth(mode.bandwidthHz)}`,
        mode.bitRateBps === undefined ? "–" : bitRate(mode.bitRateBps),
        dbm(mode.transmitPowerDbm),
        dbm(mode.receivedLevelDbm),
        raisedText(mode),
        decibels(mode.fadeMarginDb),
        mode.multipath === undefined ? "–" : outageBounded(mode.multipath),
        mode.rain === undefined ? "–" : outageBounded(mode.rain),
        mode.availabilityPercent === undefined
          ? "–"
          : availabilityBounded({
              availabilityPercent: mode.availabilityPercent,
              bound: mode.availabilityBound,
              atLeastPercent: mode.availabilityAtLeastPercent,
            }),
        ...(timed ? [inUse(mode)] : []),
      ],
    })),
  };
}

/** The law of rain that bounds a mode's availability does not part it from the mode below either. */
export function inUse({ timeInUsePercent, timeInUseEstimated, availabilityBound }: ModeResult): string {
  if (timeInUsePercent === undefined) return "–";
  if (timeInUsePercent <= 50 && availabilityBound !== undefined && timeInUsePercent < 0.001)
    return "< 0.001 %";
  const share =
    timeInUsePercent > 50
      ? availabilityBounded({ availabilityPercent: timeInUsePercent, bound: availabilityBound })
      : outageBounded({ timePercent: timeInUsePercent });
  return timeInUseEstimated ? `${share} (est.)` : share;
}

/** By what thresholds are raised, end by end, where they are. */
function raisedBy(directions: readonly DirectionResult[]): Block[] {
  const told = directions.flatMap(({ to, modes }) => {
    const mode = modes.at(-1);
    if (mode === undefined || !isRaised(mode)) return [];
    return [
      `At ${to} every threshold is raised by ${decibels(mode.degradationDb!)} of interference, ${degradationOrigin(mode)}.`,
    ];
  });
  return told.length === 0 ? [] : [{ type: "paragraph", text: told.join(" ") }];
}

/** A lower mode with more power has the margin of its table only when the radio takes that power up. */
function powerOnFallback(directions: readonly DirectionResult[]): Block[] {
  let most = 0;
  let text: string | undefined;
  for (const { modes } of directions) {
    const highest = modes.at(-1);
    if (highest === undefined) continue;
    for (const { modulation, transmitPowerDbm } of modes) {
      const stepDb = transmitPowerDbm - highest.transmitPowerDbm;
      if (stepDb <= most) continue;
      most = stepDb;
      text = `Margins of lower modes assume that the radio raises its power when it falls back, here from ${dbm(highest.transmitPowerDbm)} in ${highest.modulation} to ${dbm(transmitPowerDbm)} in ${modulation}. Where it keeps the power of ${highest.modulation}, they are up to ${decibels(stepDb)} smaller.`;
    }
  }
  return text === undefined ? [] : [{ type: "paragraph", text }];
}
