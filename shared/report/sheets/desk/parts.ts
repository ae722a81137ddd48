/** Parts and cables for the buyer and for whoever packs: what there is of each, each run, and each site's box. */
import type { Design } from "../../../design/design.js";
import { withoutDelivery } from "../../../equipment/delivery.js";
import { merged, type Part, partsOfSite, spareParts } from "../../../equipment/parts-list.js";
import { type Run, runsOf } from "../../../equipment/runs.js";
import { type SitePlan, sitePlans } from "../../../equipment/site-plan.js";
import { type Unlisted, unlistedOf } from "../../../equipment/unlisted-parts.js";
import { siteWiring } from "../../../equipment/wiring/site-wiring.js";
import { trimmed } from "../../../format/numbers.js";
import type { Block, Inline, Page, Section, TableRow } from "../../document/document.js";
import { examplePort } from "../example-port.js";
import type { SheetWords } from "../words/sheet-words.js";
import { type DeskInput, deskPage, siteName } from "./desk-sheet.js";
import { amount, deliveryCounts, deliveryText, paragraph, typeWords } from "./part-words.js";
import { keyOf, leftOf, thereAlready } from "./parts-there.js";

export interface PartsInput extends DeskInput {
  readonly design: Design;
}

interface SiteParts {
  readonly plan: SitePlan;
  readonly parts: readonly Part[];
  readonly runs: readonly Run[];
}

export function partsSheet(input: PartsInput): Page {
  const { design, words } = input;
  const sites = [...sitePlans(design).values()].map(
    (plan): SiteParts => ({ plan, parts: partsOfSite(plan, design), runs: runsOf(plan, design) }),
  );
  return deskPage(input, words.desk.parts.title, [
    billSection(sites, design, words),
    missingSection(design, words),
    totalsSection(sites, words),
    ...runSections(sites, words),
    ...boxSections(sites, words),
  ]);
}

/** Behind a figure that rests on what was found at a hop. */
const FOUND = "†";

function billSection(sites: readonly SiteParts[], design: Design, words: SheetWords): Section {
  const { parts: said } = words.desk;
  const all = sites.flatMap(({ parts }) => parts);
  const parts = merged(all.map(withoutDelivery));
  const spares = new Map(spareParts(parts, design.spares ?? []).map((spare) => [keyOf(spare), spare]));
  const delivered = Map.groupBy(all, keyOf);
  const withCode = parts.some(({ orderCode }) => orderCode !== undefined);
  const withDelivery = all.some(({ delivery }) => delivery !== undefined);
  const withSpares = spares.size > 0;
  const { parts: there, found, hops: foundHops } = thereAlready(sites, design);
  const toOrder = (part: Part): string => {
    const left = leftOf(part, there.get(keyOf(part)) ?? []);
    const text = left === undefined ? "–" : amount(left, words);
    return found.has(keyOf(part)) ? `${text} ${FOUND}` : text;
  };
  const columns = [
    { title: said.kind },
    { title: said.type },
    ...(withCode ? [{ title: said.orderCode }] : []),
    { title: said.inUse, align: "right" as const },
    ...(withSpares
      ? [
          { title: said.spare, align: "right" as const },
          { title: said.together, align: "right" as const },
        ]
      : []),
    ...(withDelivery ? [{ title: said.delivery }] : []),
    ...(there.size > 0 ? [{ title: said.toOrder, align: "right" as const }] : []),
  ];
  const rows = parts.map((part): TableRow => {
    const spare = spares.get(keyOf(part));
    const together = spare ? sumOf(part, spare) : part;
    return {
      cells: [
        said.kinds[part.kind],
        typeWords(part, words),
        ...(withCode ? [part.orderCode ?? { text: words.common.notStated, mark: "unjudged" as const }] : []),
        amount(part, words),
        ...(withSpares ? [spare ? amount(spare, words) : "–", amount(together, words)] : []),
        ...(withDelivery ? [deliveryCounts(delivered.get(keyOf(part)) ?? [], words)] : []),
        ...(there.size > 0 ? [toOrder(together)] : []),
      ],
    };
  });
  return {
    id: "bill",
    title: said.bill,
    blocks: [
      paragraph(said.told),
      { type: "table", columns, rows },
      paragraph(
        [
          withSpares ? said.sparesTold : said.noSpares,
          ...(there.size > 0 ? [said.toOrderTold] : []),
          ...(found.size > 0 ? [`${FOUND} ${said.foundTold(foundHops.join(", "))}`] : []),
          ...(withCode ? [] : [said.noCodes]),
        ].join(" "),
      ),
    ],
  };
}

function sumOf(part: Part, spare: Part): Part {
  const lengthM = part.lengthM === undefined ? undefined : part.lengthM + (spare.lengthM ?? 0);
  return { ...part, quantity: part.quantity + spare.quantity, lengthM };
}

/** Places of one kind that are named; the others are counted. */
const MOST_PLACES = 6;

function missingSection(design: Design, words: SheetWords): Section {
  const { parts: said } = words.desk;
  const items = unlistedOf(design).map((one) => `${said.missingKinds[one.what]}: ${places(one, words)}`);
  return {
    id: "missing",
    title: said.missing,
    blocks: [{ type: "list", items: [...items, said.never] }],
  };
}

function places({ places: all }: Unlisted, { desk }: SheetWords): string {
  const names = all
    .slice(0, MOST_PLACES)
    .map(({ hop, site }) =>
      hop !== undefined && site !== undefined ? desk.parts.at(hop, site) : (hop ?? site ?? ""),
    );
  const more = all.length - names.length;
  return more > 0 ? `${names.join(", ")} ${desk.parts.more(more)}` : names.join(", ");
}

/** Of each entry: runs and metres, as the bill has them. */
function totalsSection(sites: readonly SiteParts[], words: SheetWords): Section {
  const { parts: said } = words.desk;
  const byEntry = Map.groupBy(
    sites.flatMap(({ runs }) => runs),
    ({ entry }) => entry ?? "",
  );
  const metres = (lengthM: number) => words.figure(`${trimmed(lengthM, 1)} m`);
  const sum = (runs: readonly Run[]) => runs.reduce((all, { lengthM = 0 }) => all + lengthM, 0);
  const rows = [...byEntry]
    .toSorted(([a], [b]) => (a < b ? -1 : a > b ? 1 : 0))
    .map(([entry, runs]): TableRow => {
      const estimated = sum(runs.filter((run) => run.estimated));
      return {
        cells: [
          entry === "" ? { text: said.toChoose, mark: "unjudged" } : entry,
          String(runs.length),
          entry === "" ? "–" : metres(sum(runs)),
          entry === ""
            ? "–"
            : metres(runs.reduce((longest, { lengthM = 0 }) => Math.max(longest, lengthM), 0)),
          estimated > 0 ? metres(estimated) : "–",
        ],
      };
    });
  const blocks: Block[] =
    rows.length === 0
      ? [paragraph(said.noRuns)]
      : [
          {
            type: "table",
            columns: [
              { title: said.type },
              { title: said.runCount, align: "right" },
              { title: said.total, align: "right" },
              { title: said.longest, align: "right" },
              { title: said.ofEstimated, align: "right" },
            ],
            rows,
          },
          paragraph(said.drumsTold),
        ];
  return { id: "totals", title: said.totals, blocks };
}

function runSections(sites: readonly SiteParts[], words: SheetWords): Section[] {
  const { parts: said } = words.desk;
  const tables = sites.flatMap(({ plan, runs }): Block[] => {
    if (runs.length === 0) return [];
    return [
      {
        type: "table",
        caption: siteName(plan.site),
        columns: [
          { title: said.cable },
          { title: said.type },
          { title: said.length, align: "right" },
          { title: said.labelFrom },
          { title: said.labelTo },
        ],
        rows: runs.map((run) => runRow(run, words)),
      },
    ];
  });
  if (tables.length === 0) return [];
  return [
    {
      id: "runs",
      title: said.runs,
      blocks: [
        paragraph(said.runsTold),
        ...tables,
        {
          type: "paragraph",
          text: {
            text: said.notation(examplePort(sites.map(({ plan }) => siteWiring(plan)))),
            mark: "quiet",
          },
        },
      ],
    },
  ];
}

function runRow({ hop, entry, lengthM, estimated, joined, open }: Run, words: SheetWords): TableRow {
  const { parts: said } = words.desk;
  const ends = [0, 1].map((at): Inline => {
    if (joined === undefined) {
      const known = open?.labels[at];
      const label = known === undefined ? "" : `: ${known}`;
      if (at === 0) return [{ text: said.notJoined, mark: "unjudged" }, label];
      return open === undefined ? "–" : [{ text: open.to, mark: "strong" }, label];
    }
    const place = at === 0 ? joined.from : joined.to;
    const label = joined.labels?.[at];
    return [{ text: place, mark: "strong" }, label === undefined ? "" : `: ${label}`];
  });
  const cable = joined?.cable ?? open?.cable ?? hop;
  return {
    cells: [
      joined?.proposed ? [`${cable} `, { text: said.proposed, mark: "unjudged" }] : cable,
      entry ?? { text: said.toChoose, mark: "unjudged" },
      lengthM === undefined ? "–" : words.figure(`${estimated ? "~" : ""}${trimmed(lengthM, 1)} m`),
      ...ends,
    ],
  };
}

function boxSections(sites: readonly SiteParts[], words: SheetWords): Section[] {
  const { parts: said } = words.desk;
  const tables = sites.flatMap(({ plan, parts }): Block[] => {
    if (parts.length === 0) return [];
    const withDelivery = parts.some(({ delivery }) => delivery !== undefined);
    return [
      {
        type: "table",
        caption: siteName(plan.site),
        columns: [
          { title: said.kind },
          { title: said.type },
          { title: said.pieces, align: "right" },
          ...(withDelivery ? [{ title: said.delivery }] : []),
          { title: said.packed, fill: true },
        ],
        rows: parts.map((part) => ({
          cells: [
            said.kinds[part.kind],
            typeWords(part, words),
            amount(part, words),
            ...(withDelivery ? [part.delivery ? deliveryText(part.delivery, words) : "–"] : []),
            "",
          ],
        })),
      },
    ];
  });
  return tables.length === 0 ? [] : [{ id: "boxes", title: said.bySite, blocks: tables }];
}
