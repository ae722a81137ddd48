/**
 * What every page of a judged design asks for: the names of pages, the findings of a hop or site, and the design as it
 * is looked at. Worked out once for all pages: with ten thousand hops it would be ten thousand times.
 */

import { demandsByHop } from "../../shared/demands/by-hop.js";
import type { DemandResult, DemandsResult } from "../../shared/demands/result.js";
import type { Design } from "../../shared/design/design.js";
import { type SitePlan, sitePlans } from "../../shared/equipment/site-plan.js";
import type { ReportFinding } from "../../shared/report/document/document.js";
import type { JudgedDesign } from "../findings/judged-folder.js";
import { shownFrom } from "../findings/paths.js";
import type { PlacedFinding } from "../findings/placed.js";
import { holdsOn } from "../findings/stages.js";
import { shownTime } from "../findings/summary.js";
import { VERSION } from "../version.js";
import { fileNames } from "./names.js";

export interface PageOptions {
  /** Folder of the design's pages within the report, empty or ending in `/`. */
  readonly folder: string;
  /** ISO date that acceptances were held against. */
  readonly today: string;
  /** The page above the overview, if there is one. */
  readonly up?: { readonly text: string; readonly page: string };
  /** Page of the entries in use, where there are any. */
  readonly catalogue?: string;
  /** Hop pages stand alone: no way up to an overview. */
  readonly alone?: boolean;
}

/** @returns undefined for a site that has no page on the day that the report shows */
export function sitePageName(
  design: JudgedDesign,
  site: string,
  { folder }: PageOptions,
): string | undefined {
  const { siteNames, sites } = preparedFor(design);
  return sites.has(site) ? `${folder}sites/${siteNames.get(site)}` : undefined;
}

export function demandsName({ folder }: PageOptions): string {
  return `${folder}demands`;
}

export function partsName({ folder }: PageOptions): string {
  return `${folder}parts`;
}

export function calibrationName({ folder }: PageOptions): string {
  return `${folder}calibration`;
}

interface Prepared {
  readonly fileNames: ReadonlyMap<string, string>;
  readonly byHop: ReadonlyMap<string | undefined, readonly PlacedFinding[]>;
  /** Those on a site itself, by its name. */
  readonly bySite: ReadonlyMap<string | undefined, readonly PlacedFinding[]>;
  readonly siteNames: ReadonlyMap<string, string>;
  /** Sites with a page. */
  readonly sites: ReadonlySet<string>;
}

const prepared = new WeakMap<JudgedDesign, Prepared>();

function preparedFor(design: JudgedDesign): Prepared {
  let found = prepared.get(design);
  if (!found) {
    const sites = [...plansOf(design).keys()];
    found = {
      fileNames: fileNames(design.model.names("hop")),
      byHop: Map.groupBy(design.findings, ({ hop }) => hop),
      bySite: Map.groupBy(design.findings, siteOf),
      siteNames: fileNames([...design.model.names("site"), ...sites]),
      sites: new Set(sites),
    };
    prepared.set(design, found);
  }
  return found;
}

interface Viewed {
  readonly view: JudgedDesign["model"]["view"];
  readonly design: Design;
  readonly carried: DemandsResult | undefined;
  /** By hop. */
  readonly passing: ReadonlyMap<string, readonly DemandResult[]> | undefined;
}

const viewed = new WeakMap<JudgedDesign, Viewed>();

/** The design as it is looked at, put together once for all of its pages of a day. */
export function designOf(judged: JudgedDesign): Design {
  return viewedOf(judged).design;
}

export function carriedIn(judged: JudgedDesign): DemandsResult | undefined {
  return viewedOf(judged).carried;
}

export function viewedOf(judged: JudgedDesign): Viewed {
  const { model, session } = judged;
  const { view } = model;
  let known = viewed.get(judged);
  if (known?.view !== view) {
    const carried = session.demands();
    const passing = carried && demandsByHop(carried);
    viewed.set(judged, (known = { view, design: model.design(), carried, passing }));
  }
  return known;
}

export function plansOf(design: JudgedDesign): ReadonlyMap<string, SitePlan> {
  return sitePlans(designOf(design));
}

/** The site that a finding is on, as its address says. */
function siteOf({ hop, rule, key }: PlacedFinding): string | undefined {
  const at = key.slice(rule.length + 1);
  return hop === undefined && at.startsWith("site ") ? at.slice("site ".length).split(" / ")[0] : undefined;
}

export function pageName(design: JudgedDesign, hop: string, { folder }: PageOptions): string {
  return `${folder}hops/${preparedFor(design).fileNames.get(hop)}`;
}

/** What was found about a site itself. */
export function findingsOfSite(design: JudgedDesign, site: string): readonly PlacedFinding[] {
  return preparedFor(design).bySite.get(site) ?? [];
}

/** What was found about a hop, as its sheets tell it. */
export function findingsAbout(design: JudgedDesign, hop: string): readonly ReportFinding[] {
  return findingsOf(design, hop).map((finding) => reportFinding(finding, design, false));
}

/** Of one hop, or of none. */
export function findingsOf(design: JudgedDesign, hop: string | undefined): readonly PlacedFinding[] {
  return preparedFor(design).byHop.get(hop) ?? [];
}

export function reportFinding(finding: PlacedFinding, design: JudgedDesign, withHop: boolean): ReportFinding {
  const { rule, severity, message, help, place, hop, accepted } = finding;
  const { root, gone, days } = design;
  const day = (hop === undefined ? undefined : gone.get(hop)?.on) ?? days.at(-1)!;
  const otherTime = holdsOn(finding, day) ? undefined : true;
  const where = place && `${shownFrom(root, place.file)}:${place.line}:${place.column}`;
  return { rule, severity, message, help, where, hop: withHop ? hop : undefined, accepted, otherTime };
}

export function colophon(design: JudgedDesign): string {
  const shown = shownTime(design);
  const when = shown === undefined ? "" : ` as it stands ${shown}`;
  return `Computed by Hopwright ${VERSION} from the design's text${when}; acceptances as of ${design.session.acceptanceDay}. Predictions rest on the methods and inputs named on each page and are no measurement and no survey.`;
}
