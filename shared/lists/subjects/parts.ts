import {
  type Part,
  partsBesideEnds,
  partsOfEnd,
  partsOfNetwork,
  spareParts,
} from "../../equipment/parts-list.js";
import { sitePlans } from "../../equipment/site-plan.js";
import { type List, type ListColumn, listOf, number, shownOnColumn, text } from "./list.js";
import type { ListedDesign } from "./listed-design.js";

interface Row {
  readonly site?: string;
  /** Undefined: of no hop's end. */
  readonly hop?: string;
  readonly part: Part;
}

const COLUMNS: readonly ListColumn<Row>[] = [
  text("site", ({ site }) => site),
  text("for", ({ site }) => (site === undefined ? "spares" : "site")),
  text("hop", ({ hop }) => hop),
  text("kind", ({ part }) => part.kind),
  text("part", ({ part }) => part.name),
  text("title", ({ part }) => part.title),
  text("detail", ({ part }) => part.detail),
  text("order_code", ({ part }) => part.orderCode),
  number("pieces", 0, ({ part }) => part.quantity),
  number("length_m", 2, ({ part }) => part.lengthM),
  number("each_m", 2, ({ part }) => part.eachM),
  text("length_is", ({ part }) =>
    part.lengthM === undefined ? undefined : part.estimated ? "estimated" : "stated",
  ),
  text("delivery", ({ part }) => part.delivery?.state),
  text("delivery_date", ({ part }) => part.delivery?.date),
  text("delivery_remark", ({ part }) => part.delivery?.remark),
  text("to_choose", ({ part }) => (part.toChoose ? "yes" : undefined)),
];

export function partList({ design, shownOn }: ListedDesign): List {
  const atSites = [...sitePlans(design).values()].flatMap((plan): Row[] => {
    const site = plan.site.name;
    return [
      ...plan.ends.flatMap((end) =>
        partsOfEnd(end, plan, design).map((part) => ({ site, hop: end.hop.name, part })),
      ),
      ...partsBesideEnds(plan).map((part) => ({ site, part })),
    ];
  });
  const spares = spareParts(partsOfNetwork(design), design.spares ?? []).map((part): Row => ({ part }));
  return listOf("parts", [...COLUMNS, ...shownOnColumn(shownOn)], [...atSites, ...spares]);
}
