/** Channel plans explained, for the terminal. */
import { bandwidth } from "../../../shared/format/numbers.js";
import type {
  ExplainedChannel,
  PlanExplanation,
  PlanRowExplanation,
} from "../../../shared/report/explain-plan.js";
import { channelStandingText, standingText } from "../../../shared/spectrum/standing.js";
import type { Paint } from "../streams.js";
import { safe } from "./safe.js";
import { wrapped } from "./wrap.js";

const WIDTH = 78;

export function* planText(plans: readonly PlanExplanation[], paint: Paint): Iterable<string> {
  for (const { plan, band, documents, notes, rows } of plans) {
    yield `${paint("bold", [safe(plan), band].filter(Boolean).join(", "))}\n`;
    for (const sentence of [documents.join("; "), ...notes]) yield `${wrapped(safe(sentence), WIDTH)}\n`;
    for (const row of rows) yield* rowText(row, paint);
    yield "\n";
  }
  yield `${wrapped(CAUTION, WIDTH)}\n`;
}

const CAUTION =
  "Centre frequencies in MHz, lower half / upper half. Before a frequency goes into a licence, look it up in the plan of your administration.";

function* rowText(row: PlanRowExplanation, paint: Paint): Iterable<string> {
  const step = row.stepHz === row.widthHz ? "" : `, one each ${bandwidth(row.stepHz)}`;
  yield `\n${paint("bold", `${bandwidth(row.widthHz)} wide${step}, halves ${bandwidth(row.duplexSpacingHz)} apart`)}\n`;
  const [only, ...others] = row.channels;
  const standing = only && others.length === 0 ? channelStandingText(row, only.number) : standingText(row);
  yield `${wrapped(standing, WIDTH - 2, "  ")}\n`;
  if (row.witness !== undefined) yield `${wrapped(`seen: ${row.witness}`, WIDTH - 2, "  ")}\n`;
  if (row.note !== undefined) yield `${wrapped(`remark: ${row.note}`, WIDTH - 2, "  ")}\n`;
  yield* columns(row.channels.map(channelText));
}

function channelText({ number, lowHz, highHz }: ExplainedChannel): string {
  return `${String(number).padStart(5)}  ${lowHz / 1e6} / ${highHz / 1e6}`;
}

/** As many beside each other as the width holds. */
function* columns(cells: readonly string[]): Iterable<string> {
  const cell = Math.max(0, ...cells.map(({ length }) => length)) + 1;
  const across = Math.max(1, Math.floor(WIDTH / cell));
  for (let at = 0; at < cells.length; at += across) {
    const line = cells.slice(at, at + across).map((text) => text.padEnd(cell));
    yield `${line.join("").trimEnd()}\n`;
  }
}
