/** What was found in a judged design, by what the sheets are about: which of it are errors the sheets know. */
import type { ReportFinding } from "../../shared/report/document/document.js";
import type { BookErrors } from "../../shared/report/sheets/book.js";
import type { ErrorsOf } from "../../shared/report/sheets/design-errors.js";
import type { JudgedDesign } from "../findings/judged-folder.js";
import type { PlacedFinding } from "../findings/placed.js";
import { countsOf } from "../findings/summary.js";
import { findingsAbout, reportFinding } from "../report/page-material.js";

interface Sorted {
  readonly count: number;
  readonly bySite: ReadonlyMap<string, readonly PlacedFinding[]>;
  readonly byDemand: ReadonlyMap<string, readonly PlacedFinding[]>;
  /** What a demand lacks at a site, by the site. */
  readonly lacking: ReadonlyMap<string, readonly PlacedFinding[]>;
}

const sorted = new WeakMap<JudgedDesign, Sorted>();

/** Once for all sheets: with ten thousand sites it would be ten thousand times. */
function sortedOf(design: JudgedDesign): Sorted {
  let found = sorted.get(design);
  if (!found) {
    // Those of hops are told with their hops.
    const others = design.findings.filter(({ hop }) => hop === undefined);
    const byDemand = by("demand", others);
    const atSites = [...byDemand.values()]
      .flat()
      .flatMap((one) =>
        [...new Set(one.related.flatMap(({ at }) => named("site", at) ?? []))].map((site) => ({ site, one })),
      );
    const lacking = new Map(
      [...Map.groupBy(atSites, ({ site }) => site)].map(([site, all]) => [site, all.map(({ one }) => one)]),
    );
    found = { count: countsOf(design).errors, bySite: by("site", others), byDemand, lacking };
    sorted.set(design, found);
  }
  return found;
}

function by(
  kind: "site" | "demand",
  findings: readonly PlacedFinding[],
): ReadonlyMap<string, PlacedFinding[]> {
  const own = findings.filter(({ at }) => named(kind, at) !== undefined);
  return Map.groupBy(own, ({ at }) => named(kind, at)!);
}

/** The element of a kind that an address is in. */
function named(kind: "site" | "demand", at: string | undefined): string | undefined {
  const [top = ""] = at?.split(" / ") ?? [];
  return top.startsWith(`${kind} `) ? top.slice(kind.length + 1) : undefined;
}

export function errorCount(design: JudgedDesign): number {
  return sortedOf(design).count;
}

/** Those at a site, what demands lack there, and those of the hops that end there. */
export function errorsAtSite(
  design: JudgedDesign,
  site: string,
  hops: Iterable<string>,
): readonly ErrorsOf[] {
  const { bySite, lacking } = sortedOf(design);
  const shown = (those: readonly PlacedFinding[] = []) =>
    those.map((one) => reportFinding(one, design, false));
  const wanting = Map.groupBy(lacking.get(site) ?? [], ({ at }) => named("demand", at)!);
  return [
    { about: { kind: "site", name: site }, findings: shown(bySite.get(site)) },
    ...[...wanting].map(
      ([name, those]): ErrorsOf => ({
        about: { kind: "demand", name },
        findings: shown(those),
      }),
    ),
    ...[...new Set(hops)].map(
      (name): ErrorsOf => ({
        about: { kind: "hop", name },
        findings: findingsAbout(design, name),
      }),
    ),
  ];
}

export function errorsOfBook(design: JudgedDesign): BookErrors {
  const { count, bySite, byDemand } = sortedOf(design);
  const shown = (all: ReadonlyMap<string, readonly PlacedFinding[]>) =>
    new Map(
      [...all].map(([name, those]): [string, readonly ReportFinding[]] => [
        name,
        those.map((one) => reportFinding(one, design, false)),
      ]),
    );
  return { count, ofDemands: shown(byDemand), ofSites: shown(bySite) };
}
