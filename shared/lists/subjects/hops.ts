import type { Hop } from "../../design/design.js";
import { stateWords } from "../../design/state.js";
import type { HopResult } from "../../evaluate/account/result.js";
import { gravest, worstClearance } from "../../report/pages/figures.js";
import { weakerDirection } from "../../rules/judged-modes.js";
import { over } from "../../units/as-written.js";
import { type List, type ListColumn, listOf, number, shownOnColumn, text } from "./list.js";
import type { ListedDesign, ListedFinding } from "./listed-design.js";

interface Row {
  readonly name: string;
  readonly hop?: Hop;
  readonly result?: HopResult;
  readonly findings: readonly ListedFinding[];
  readonly until?: string;
}

const weaker = ({ hop, result }: Row) => (hop && result ? weakerDirection(hop, result) : undefined);

const COLUMNS: readonly ListColumn<Row>[] = [
  text("hop", ({ name }) => name),
  text("title", ({ hop }) => hop?.title),
  // That of a site is the site's to say: read back here it would become the hop's own.
  text("state", ({ hop }) => (hop?.state && !hop.stateFromSites ? stateWords(hop.state) : undefined)),
  { head: "figures_until", type: "date", of: ({ until }) => until },
  text("site_a", ({ hop }) => hop?.ends[0].site.name),
  text("site_b", ({ hop }) => hop?.ends[1].site.name),
  text("objective", ({ hop }) => hop?.objective?.name),
  text("plan", ({ hop }) => hop?.channel?.plan),
  number("channel_width_MHz", 6, ({ hop }) => inMHz(hop?.channel?.bandwidthHz)),
  number("channel", 0, ({ hop }) => hop?.channel?.number),
  text("polarization", ({ hop }) => hop?.polarization),
  text("arrangement", ({ hop }) => hop?.arrangement.name),
  text("radio", ({ hop }) => hop?.radio?.name),
  number("mode_width_MHz", 6, ({ hop }) => inMHz(hop?.modes[0]?.bandwidthHz)),
  text("lowest_mode", ({ hop }) => hop?.modes[0]?.modulation),
  text("highest_mode", ({ hop }) => hop?.modes.at(-1)?.modulation),
  number("length_km", 3, ({ result }) =>
    result?.distanceM === undefined ? undefined : result.distanceM / 1000,
  ),
  number("lower_level_dBm", 1, ({ result }) =>
    result?.directions.length ? Math.min(...result.directions.map((one) => one.receivedLevelDbm)) : undefined,
  ),
  text("judged_mode", (row) => weaker(row)?.mode.modulation),
  number("fade_margin_dB", 1, (row) => weaker(row)?.mode.fadeMarginDb),
  // As it counts in the margin: stated or computed.
  number("interference_dB", 1, (row) => weaker(row)?.mode.degradationDb),
  number("availability_percent", 7, ({ result }) => result?.availability?.availabilityPercent),
  text("availability_is", ({ result }) => availabilityIs(result)),
  number("clearance_F1", 2, ({ result }) => (result ? worstClearance(result)?.fraction : undefined)),
  number("errors", 0, (row) => count(row, "error")),
  number("warnings", 0, (row) => count(row, "warning")),
  number("findings_at_other_times", 0, ({ findings }) => findings.filter((one) => one.otherTime).length),
  text("verdict", verdict),
];

export function hopList({ hopNames, last, results, findings, shownOn }: ListedDesign): List {
  const byHop = Map.groupBy(findings, ({ hop }) => hop);
  const rows = hopNames.map((name): Row => {
    const judged = results.get(name);
    return {
      name,
      hop: judged?.hop ?? last.hops.get(name),
      result: judged?.result,
      until: judged?.until,
      findings: byHop.get(name) ?? [],
    };
  });
  return listOf("hops", [...COLUMNS, ...shownOnColumn(shownOn)], rows, ({ hop }) => {
    const [a, b] = hop?.ends.map(({ site }) => site.position) ?? [];
    return a && b ? [a, b] : undefined;
  });
}

export function inMHz(hz: number | undefined): number | undefined {
  return hz === undefined ? undefined : over(hz, 1e6);
}

function count({ findings }: Row, severity: ListedFinding["severity"]): number {
  return findings.filter((one) => one.severity === severity && !one.accepted && !one.otherTime).length;
}

/** A figure that is bounded, or an estimate outside of its method's range, is never told without saying so. */
function availabilityIs(result: HopResult | undefined): string | undefined {
  const found = result?.availability;
  if (!found) return undefined;
  if (found.bound !== undefined) return found.bound;
  return found.atLeastPercent === undefined
    ? undefined
    : `estimate, at least ${found.atLeastPercent.toFixed(4)}`;
}

function verdict({ hop, result, findings }: Row): string {
  if (!hop || result?.directions.length !== 2) return "not evaluated";
  const tone = gravest(findings);
  if (tone !== undefined && tone !== "info") return tone;
  return hop.objective === undefined ? "no objective" : "met";
}
