import type { Hop, HopEnd } from "../../design/design.js";
import type { HopResult } from "../../evaluate/account/result.js";
import { arrangementAt, endsDiffer } from "../../radio/arrangement-pairs.js";
import { inMHz } from "./hops.js";
import { type List, type ListColumn, listOf, number, shownOnColumn, text } from "./list.js";
import type { ListedDesign } from "./listed-design.js";

interface Row {
  readonly hop: Hop;
  readonly index: 0 | 1;
  readonly end: HopEnd;
  readonly result?: HopResult;
  readonly until?: string;
}

const geometry = ({ result, index }: Row) => result?.geometry?.[index];
const sent = ({ result, end }: Row) => result?.directions.find(({ from }) => from === end.site.name);
const received = ({ result, end }: Row) => result?.directions.find(({ to }) => to === end.site.name);

const COLUMNS: readonly ListColumn<Row>[] = [
  text("hop", ({ hop }) => hop.name),
  text("site", ({ end }) => end.site.name),
  text("far_site", ({ hop, index }) => hop.ends[index === 0 ? 1 : 0].site.name),
  text("antenna", ({ end }) => end.antenna?.name),
  number("antenna_height_m", 4, ({ end }) => end.antennaHeightM),
  text("diversity_antenna", ({ end }) => end.diversityAntenna?.name),
  number("diversity_height_m", 4, ({ end }) => end.diversityHeightM),
  text("coupler", ({ end }) => end.coupler?.name),
  text("mounting", ({ end }) => end.mounting),
  text("feeder", ({ end }) => end.feeder?.name),
  number("feeder_length_m", 4, ({ end }) => end.feederLengthM),
  text("transmits", ({ end }) => end.transmits),
  number("frequency_MHz", 6, ({ end }) => inMHz(end.transmitFrequencyHz)),
  number("power_dBm", 4, ({ end }) => end.transmitPowerDbm),
  number("extra_loss_dB", 4, ({ end }) => end.extraLossDb),
  number("azimuth_deg", 2, (row) => geometry(row)?.azimuthDeg),
  number("elevation_deg", 2, (row) => geometry(row)?.elevationDeg),
  number("eirp_dBm", 1, (row) => sent(row)?.eirpDbm),
  number("received_level_dBm", 1, (row) => received(row)?.receivedLevelDbm),
  { head: "figures_until", type: "date", of: ({ until }) => until },
];

/** Where the ends of a hop are built differently. What hops state stands in their own list; this one is told only. */
function builtColumn(hops: Iterable<Hop>): readonly ListColumn<Row>[] {
  if (![...hops].some(endsDiffer)) return [];
  return [text("built_as", ({ hop, end }) => arrangementAt(hop, end))];
}

export function endList({ last, results, shownOn }: ListedDesign): List {
  const rows = [...last.hops.values()].flatMap((hop): Row[] =>
    ([0, 1] as const).map((index) => ({
      hop,
      index,
      end: hop.ends[index],
      result: results.get(hop.name)?.result,
      until: results.get(hop.name)?.until,
    })),
  );
  return listOf(
    "ends",
    [...COLUMNS, ...builtColumn(last.hops.values()), ...shownOnColumn(shownOn)],
    rows,
    ({ end }) => end.site.position && [end.site.position],
  );
}
