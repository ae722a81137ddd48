/** The port plan of a site: what is on every port, what is written on the cables, what is earthed where. */
import type { Design } from "../../design/design.js";
import type { SitePlan } from "../../equipment/site-plan.js";
import { earthPoints } from "../../equipment/wiring/earth.js";
import { LABEL_WORDS, PORT_NOTATION, USUAL_LABEL } from "../../equipment/wiring/labels.js";
import { type PortRow, portPlan } from "../../equipment/wiring/port-plan.js";
import { siteWiring } from "../../equipment/wiring/site-wiring.js";
import type { WiredPort } from "../../equipment/wiring/wiring.js";
import { shown } from "../../words/message.js";
import { carriedMessage, joinedByMessage, lacksMessage, partMessage } from "../../words/wiring.js";
import type { Block, Inline, Section, Table } from "../document/document.js";

/** Empty where nothing at the site has ports. */
export function portPlanSections(plan: SitePlan, design: Design): Section[] {
  const wiring = siteWiring(plan);
  const rows = portPlan(wiring, design.labels);
  if (rows.length === 0) return [];
  const [used, unused] = [rows.filter(isUsed), rows.filter((row) => !isUsed(row))];
  const blocks: Block[] = [];
  if (used.length > 0) blocks.push(usedTable(used));
  if (rows.some(({ joined }) => joined?.proposed))
    blocks.push({
      type: "paragraph",
      text: "What is marked as proposed is placed by this tool in a stable order; the design states nothing of it.",
    });
  if (unused.length > 0) blocks.push(unusedTable(unused));
  if (rows.some(({ port }) => differsAmong(port)))
    blocks.push({
      type: "paragraph",
      text: "Ports of a card are counted from 1 over all of their kinds, in the order of its entry in the catalogue; where that is not the number among its own kind, it stands behind it: 2 (alarm-in 1) is the second port of the card and its first alarm input. What is printed on the card is in its manual.",
    });
  blocks.push(labelRule(design), ...longLabels(rows));
  return [{ id: "ports", title: "Ports and labels", blocks }, ...earthSection(plan, design)];
}

/** Plugs of cards into their chassis are seen on its face. */
function isUsed({ joined, lacks }: PortRow): boolean {
  return lacks !== undefined || (joined !== undefined && joined.by.kind !== "backplane");
}

function usedTable(rows: readonly PortRow[]): Table {
  return {
    type: "table",
    caption: "Ports in use, and those that lack what they are to be joined to",
    columns: [
      { title: "Part" },
      { title: "Port" },
      { title: "Signal" },
      { title: "Joined to" },
      { title: "By" },
      { title: "Label at this end" },
    ],
    rows: rows.map(({ part, port, joined, lacks }) => {
      const name = portName(port);
      if (joined === undefined)
        return {
          cells: [
            shown(partMessage(part)),
            name,
            { text: shown(lacksMessage(lacks!)), mark: "unjudged" },
            "–",
            "–",
            "–",
          ],
        };
      const signal: Inline = joined.proposed
        ? [shown(carriedMessage(joined.carries)), { text: " proposed", mark: "quiet" }]
        : shown(carriedMessage(joined.carries));
      return {
        cells: [
          shown(partMessage(part)),
          name,
          signal,
          joined.there,
          shown(joinedByMessage(joined.by)),
          joined.label ?? "–",
        ],
      };
    }),
  };
}

function unusedTable(rows: readonly PortRow[]): Table {
  const byPart = Map.groupBy(
    rows.filter(({ joined, port }) => joined === undefined && port.type !== "backplane"),
    ({ part }) => part,
  );
  return {
    type: "table",
    caption: "Ports without use",
    columns: [{ title: "Part" }, { title: "Ports" }, { title: "To do" }],
    rows: [...byPart].map(([part, own]) => ({
      cells: [
        shown(partMessage(part)),
        own.map(({ port }) => portName(port)).join(", "),
        own.some(({ port }) => port.terminated) ? "close with a termination" : "–",
      ],
    })),
  };
}

/** `2 (alarm-in 1)`, `3 (GE)`, `IF` */
function portName(port: WiredPort): string {
  const { name, type, ofType } = port;
  if (name === String(type)) return name;
  return `${name} (${type}${differsAmong(port) ? ` ${ofType}` : ""})`;
}

function differsAmong({ name, ofType }: WiredPort): boolean {
  return ofType !== undefined && String(ofType) !== name;
}

/** Signs that a flag on a cable usually has room for. Common practice, no source. */
const USUAL_LABEL_LENGTH = 40;

function longLabels(rows: readonly PortRow[]): Block[] {
  const lengths = rows.flatMap(({ joined }) => [...(joined?.label ?? "")].length);
  const long = lengths.filter((length) => length > USUAL_LABEL_LENGTH).length;
  if (long === 0) return [];
  const are = long === 1 ? "label has" : "labels have";
  return [
    {
      type: "paragraph",
      text: `${long} ${are} more than ${USUAL_LABEL_LENGTH} signs, the longest ${Math.max(...lengths)}: more than a usual flag on a cable has room for (common practice, no source). A shorter rule leaves words out.`,
    },
  ];
}

function labelRule({ labels }: Design): Block {
  const words = Object.entries(LABEL_WORDS).map(([word, meaning]) => `{${word}} ${meaning}`);
  const by = labels === undefined ? "the usual rule" : "the rule that the network states";
  return {
    type: "paragraph",
    text: `Labels follow ${by}, ${labels ?? USUAL_LABEL}: ${words.join("; ")}. ${PORT_NOTATION}`,
  };
}

function earthSection(plan: SitePlan, design: Design): Section[] {
  const wiring = siteWiring(plan);
  const points = earthPoints(plan, wiring, design.groundingEveryM);
  if (points.length === 0) return [];
  return [
    {
      id: "earth",
      title: "Earth",
      blocks: [
        {
          type: "table",
          columns: [{ title: "Part" }, { title: "Earthed at" }, { title: "Points", align: "right" }],
          rows: points.map(({ part, what, count }) => ({
            cells: [shown(partMessage(wiring.parts.get(part)!)), what, String(count)],
          })),
        },
        {
          type: "paragraph",
          text: "Common practice, no source. Local codes, the owner of the structure and licensed practice come first: one earthing system a site, short straight wires, cable screens bonded at top, bottom and entry.",
        },
      ],
    },
  ];
}
