import type { Site } from "../../design/design.js";
import { stateWords } from "../../design/state.js";
import { type List, type ListColumn, listOf, number, shownOnColumn, text } from "./list.js";
import type { ListedDesign } from "./listed-design.js";

interface Row {
  readonly site: Site;
  readonly hops: number;
}

/** Nine decimals of a degree are a tenth of a millimetre. */
const COLUMNS: readonly ListColumn<Row>[] = [
  text("site", ({ site }) => site.name),
  text("title", ({ site }) => site.title),
  text("state", ({ site }) => site.state && stateWords(site.state)),
  number("latitude_deg", 9, ({ site }) => site.position?.latitudeDeg),
  number("longitude_deg", 9, ({ site }) => site.position?.longitudeDeg),
  number("ground_m", 4, ({ site }) => site.groundM),
  text("structure", ({ site }) => site.structure?.kind),
  number("structure_height_m", 4, ({ site }) => site.structure?.heightM),
  number("hops", 0, ({ hops }) => hops),
];

export function siteList({ last, shownOn }: ListedDesign): List {
  const hops = new Map<string, number>();
  for (const { ends } of last.hops.values())
    for (const { site } of ends) hops.set(site.name, (hops.get(site.name) ?? 0) + 1);
  const rows = [...last.sites.values()].map((site) => ({ site, hops: hops.get(site.name) ?? 0 }));
  return listOf(
    "sites",
    [...COLUMNS, ...shownOnColumn(shownOn)],
    rows,
    ({ site }) => site.position && [site.position],
  );
}
