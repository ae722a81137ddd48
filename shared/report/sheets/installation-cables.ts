/** Every cable, guide and feed of a site with what is written on it at both ends. */

import { cableLength } from "../../equipment/cable-run.js";
import type { Run } from "../../equipment/runs.js";
import type { SitePlan } from "../../equipment/site-plan.js";
import { type CableLabel, labelsOf, portWords } from "../../equipment/wiring/labels.js";
import type { JoinedBy, Joint, Wiring } from "../../equipment/wiring/wiring.js";
import { fixed, metres, trimmed } from "../../format/numbers.js";
import type { Block, Inline, Section, Table } from "../document/document.js";
import { examplePort } from "./example-port.js";
import type { SheetWords } from "./words/sheet-words.js";

/** @param rule of labels, as the network states it */
export function cableSection(
  plan: SitePlan,
  wiring: Wiring,
  rule: string | undefined,
  runs: readonly Run[],
  words: SheetWords,
): Section[] {
  const { cables } = words.installation;
  const runM = plan.equipment?.cableRunM;
  const labels = labelsOf(wiring, rule);
  const labelled = wiring.joints.flatMap((joint) => {
    const label = labels.get(joint);
    return label === undefined ? [] : [{ joint, label }];
  });
  const { outdoors = [], indoors = [] } = Object.groupBy(labelled, ({ joint }) =>
    joint.carries.kind === "hop" || supplied(joint, plan, wiring) !== undefined ? "outdoors" : "indoors",
  );
  const table = (caption: string, all: readonly Labelled[]) =>
    all.length === 0 ? [] : [cableTable(caption, all, plan, wiring, words)];
  const blocks: Block[] = [
    ...table(cables.outdoors, outdoors),
    ...table(cables.indoors, indoors),
    ...unjoinedTable(runs, words),
    ...openTable(wiring, words),
  ];
  if (blocks.length === 0) return [];
  const told = [
    ...(labelled.some(({ joint }) => joint.proposed) ? [cables.proposedTold] : []),
    cables.labelsTold(examplePort([wiring])),
    ...(runs.some(({ estimated }) => estimated)
      ? [cables.estimateTold(runM === undefined ? undefined : words.figure(metres(runM)))]
      : []),
  ].join(" ");
  return [
    {
      id: "cables",
      title: cables.title,
      blocks: [...blocks, { type: "paragraph", text: { text: told, mark: "quiet" } }],
    },
  ];
}

interface Labelled {
  readonly joint: Joint;
  readonly label: CableLabel;
}

/** The end whose unit on the structure a feed goes up to. */
function supplied(
  { by, ends }: Joint,
  plan: SitePlan,
  { parts }: Wiring,
): SitePlan["ends"][number] | undefined {
  if (by.kind !== "fuse") return undefined;
  const fed = parts.get(ends[1].part);
  if (fed?.kind !== "unit") return undefined;
  return plan.ends.find(({ hop, facts }) => hop.name === fed.of?.hop && (facts?.outdoorUnits ?? 0) > 0);
}

/** As long as the other cable to the unit, beside which it lies: an estimate, as the design states none. */
function supplyText(joint: Joint, plan: SitePlan, wiring: Wiring, words: SheetWords): string {
  const end = supplied(joint, plan, wiring);
  const length = end && cableLength(end.end, plan.equipment);
  const told = byText(joint.by, words);
  if (end === undefined) return told;
  const { supply } = words.installation.cables;
  return `${withLength(supply, length?.lengthM, true, words)}; ${told}`;
}

function cableTable(
  caption: string,
  all: readonly Labelled[],
  plan: SitePlan,
  wiring: Wiring,
  words: SheetWords,
): Table {
  const { cables } = words.installation;
  return {
    type: "table",
    caption,
    columns: [
      { title: cables.number },
      { title: cables.what },
      { title: cables.from },
      { title: cables.labelThere },
      { title: cables.to },
      { title: cables.labelThere },
      { title: cables.lengthBuilt, fill: true },
      { title: cables.done, fill: true },
    ],
    rows: all.map(({ joint, label }) => {
      const noPlant = joint.by.kind === "fuse" && plan.equipment?.plantW === undefined;
      const proposed = noPlant ? `${cables.proposed}, ${cables.noPlant}` : cables.proposed;
      const by: Inline = joint.proposed
        ? [supplyText(joint, plan, wiring, words), { text: ` ${proposed}`, mark: "quiet" }]
        : supplyText(joint, plan, wiring, words);
      const [one, other] = joint.ends;
      return {
        cells: [
          { text: label.cable, mark: "strong" },
          by,
          portWords(one, wiring),
          label.ends[0],
          portWords(other, wiring),
          label.ends[1],
          hasLength(joint) ? "" : "–",
          "",
        ],
      };
    }),
  };
}

/** A wire to a contact comes off a reel. */
function hasLength({ by }: Joint): boolean {
  return by.kind !== "wire";
}

function byText(by: JoinedBy, words: SheetWords): string {
  const { cables, antennas } = words.installation;
  switch (by.kind) {
    case "cable": {
      const name = by.cable ?? `${cables.kinds[by.sort]}, ${antennas.toChoose}`;
      return withLength(name, by.lengthM, by.estimated === true, words);
    }
    case "waveguide":
      return withLength(by.feeder ?? `${cables.guide}, ${antennas.toChoose}`, by.lengthM, false, words);
    case "fuse":
      return words.figure(
        cables.fuse(by.feed, by.fuse, by.ratingA === undefined ? undefined : `${trimmed(by.ratingA, 1)} A`),
      );
    case "wire":
      return cables.wire;
    // A flange and a backplane have no label.
    default:
      return cables.patch;
  }
}

function withLength(
  name: string,
  lengthM: number | undefined,
  estimated: boolean,
  { figure }: SheetWords,
): string {
  if (lengthM === undefined) return name;
  // An estimate is no better than a metre.
  return `${name}, ${estimated ? `~${fixed(lengthM, 0)} m` : figure(metres(lengthM))}`;
}

/** To be laid all the same: where they end indoors is not known. */
function unjoinedTable(runs: readonly Run[], words: SheetWords): Table[] {
  const { cables, antennas } = words.installation;
  const open = runs.filter(({ joined }) => joined === undefined);
  if (open.length === 0) return [];
  return [
    {
      type: "table",
      caption: cables.unjoined,
      columns: [
        { title: cables.number },
        { title: cables.what },
        { title: cables.upper },
        { title: cables.labelThere },
        { title: cables.indoorPort, fill: true },
        { title: cables.labelThere },
        { title: cables.lengthBuilt, fill: true },
        { title: cables.done, fill: true },
      ],
      rows: open.map(({ hop, entry, lengthM, estimated, open: known }) => ({
        cells: [
          { text: known?.cable ?? hop, mark: "strong" },
          withLength(entry ?? antennas.toChoose, lengthM, estimated, words),
          known?.to ?? "–",
          known?.labels[1] ?? "–",
          "",
          known?.labels[0] ?? "–",
          "",
          "",
        ],
      })),
    },
  ];
}

/** What found no port, or has nothing at its other end. */
function openTable(wiring: Wiring, words: SheetWords): Table[] {
  const { cables } = words.installation;
  const loose = wiring.loose.filter(({ lacks }) => lacks !== "handed over");
  if (loose.length === 0) return [];
  return [
    {
      type: "table",
      caption: cables.open,
      columns: [{ title: cables.from }, { title: words.acceptance.reason }],
      rows: loose.map((one) => ({ cells: [portWords(one, wiring), cables.lacks[one.lacks]] })),
    },
  ];
}
