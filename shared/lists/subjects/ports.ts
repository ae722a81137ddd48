import { sitePlans } from "../../equipment/site-plan.js";
import { type PortRow, portPlan } from "../../equipment/wiring/port-plan.js";
import { siteWiring } from "../../equipment/wiring/site-wiring.js";
import { shown } from "../../words/message.js";
import {
  branchName,
  carriedMessage,
  joinedByMessage,
  lacksMessage,
  partKindMessage,
} from "../../words/wiring.js";
import { type List, type ListColumn, listOf, number, shownOnColumn, text } from "./list.js";
import type { ListedDesign } from "./listed-design.js";

const COLUMNS: readonly ListColumn<PortRow>[] = [
  text("site", ({ site }) => site),
  text("kind", ({ part }) => shown(partKindMessage(part.kind))),
  text("part", ({ part }) => part.name ?? part.title),
  text("chassis", ({ part }) => part.place?.chassis),
  number("slot", 0, ({ part }) => part.place?.slot),
  text("hop", ({ part }) => part.of?.hop),
  text("branch", ({ part }) => part.of?.branch && branchName(part.of.branch)),
  text("port", ({ port }) => port.name),
  text("port_type", ({ port }) => port.type),
  number("port_of_type", 0, ({ port }) => port.ofType),
  text("use", ({ joined, lacks, port }) =>
    joined ? "used" : lacks ? "lacks" : port.terminated ? "terminate" : "free",
  ),
  text("lacks", ({ lacks }) => lacks && shown(lacksMessage(lacks))),
  text("signal", ({ joined }) => joined && shown(carriedMessage(joined.carries))),
  text("joined_to", ({ joined }) => joined?.there),
  text("by", ({ joined }) => joined && shown(joinedByMessage(joined.by))),
  text("placed", ({ joined }) => joined && (joined.proposed ? "proposed" : "stated")),
  text("cable", ({ joined }) => joined?.cable),
  text("label", ({ joined }) => joined?.label),
];

/** What plugs into a backplane is where its slot is. */
function isShown({ port }: PortRow): boolean {
  return port.type !== "backplane";
}

/** Every port of every site: what is on it and what its cable is labelled with. */
export function portList({ design, shownOn }: ListedDesign): List {
  const rows = [...sitePlans(design).values()].flatMap((plan) =>
    portPlan(siteWiring(plan), design.labels).filter(isShown),
  );
  return listOf("ports", [...COLUMNS, ...shownOnColumn(shownOn)], rows);
}
