/** The pages of one judged design, as data: what a host has at hand is put together for `shared/report`. */

import { resolve } from "node:path";
import { changesOf, partsInTime } from "../../language/compare/decided.js";
import { aroundHop } from "../../language/model/around.js";
import { type Calibration, calibrationOf } from "../../shared/as-built/calibration.js";
import { licenceSection, ordersSection } from "../../shared/compare/page/orders-section.js";
import { viewWords } from "../../shared/design/state.js";
import type { SitePlan } from "../../shared/equipment/site-plan.js";
import type { HopResult } from "../../shared/evaluate/account/result.js";
import { openNeighbours } from "../../shared/interference/caused.js";
import type { InterferenceAt } from "../../shared/interference/receiver-result.js";
import { type HeldHop, heldHop, licencesFor } from "../../shared/licence/held.js";
import type { Page } from "../../shared/report/document/document.js";
import { calibrationPage, calibrationWords } from "../../shared/report/pages/calibration-page.js";
import { demandsPage } from "../../shared/report/pages/demands-page.js";
import { hopPage } from "../../shared/report/pages/hop-page.js";
import type { NetworkLicence } from "../../shared/report/pages/licences.js";
import type { CarriedByHop } from "../../shared/report/pages/loads.js";
import { type OverviewInput, overviewPage } from "../../shared/report/pages/overview-page.js";
import type { OtherBand } from "../../shared/report/pages/pair.js";
import { partsPage } from "../../shared/report/pages/parts-page.js";
import { sitePage } from "../../shared/report/pages/site-page.js";
import type { HopTimes } from "../../shared/report/pages/times.js";
import { demandsWords } from "../../shared/words/demand-figures.js";
import type { JudgedDesign } from "../findings/judged-folder.js";
import { isOfDemands } from "../findings/of-demands.js";
import { shownFrom } from "../findings/paths.js";
import { hopsOf, shownTime } from "../findings/summary.js";
import { ground } from "../session/ground.js";
import type { SessionHop } from "../session/hop-judge.js";
import {
  calibrationName,
  carriedIn,
  colophon,
  demandsName,
  designOf,
  findingsOf,
  findingsOfSite,
  type PageOptions,
  pageName,
  partsName,
  plansOf,
  reportFinding,
  sitePageName,
  viewedOf,
} from "./page-material.js";
import type { PlannedStep } from "./planned.js";

/** @returns undefined when the hop is not evaluated */
export async function pageOfHop(
  design: JudgedDesign,
  name: string,
  options: PageOptions,
): Promise<Page | undefined> {
  const judged = design.session.result(name);
  if (!judged) return undefined;
  const { profile } = await ground(judged.hop, design.session.terrain());
  const overview = { text: design.title ?? "Overview", page: `${options.folder}index` };
  return hopPage({
    hop: judged.hop,
    result: withShownFiles(judged.result, design.root),
    profile,
    around: aroundHop(design.model, name),
    plans: plansOf(design),
    sitePage: options.alone ? undefined : (site) => sitePageName(design, site, options),
    pair: otherBandOf(design, name, options),
    interference: design.session.inNetwork(name)?.interference,
    caused: design.session.caused(name),
    openNeighbours: openNeighbours(judged.hop, designOf(design).hops.values()),
    pageOfHop: (hop) =>
      options.alone || !judgedHere(design, hop) ? undefined : pageName(design, hop, options),
    carried: carriedBy(design, name, options),
    times: timesOf(design, name),
    licences: { held: heldBy(design, judged, name), today: design.session.today },
    findings: findingsOf(design, name).map((finding) => reportFinding(finding, design, false)),
    name: pageName(design, name, options),
    up: options.alone ? undefined : overview,
    colophon: colophon(design),
  });
}

/** What a hop is licensed for on the day that is looked at. */
function heldBy(
  design: JudgedDesign,
  { hop, result }: Pick<SessionHop, "hop" | "result">,
  name: string,
): HeldHop {
  return heldHop(hop, result, licencesFor(designOf(design), name), design.session.acceptanceDay);
}

/** In the order of the text. */
function licencesOf(design: JudgedDesign, options: PageOptions): OverviewInput["licences"] {
  const { licences } = designOf(design);
  if (licences === undefined) return undefined;
  const byHop = new Map<string, HeldHop | undefined>();
  const all = licences.map((licence): NetworkLicence => {
    const { hop } = licence;
    const judged = design.session.result(hop);
    if (!byHop.has(hop)) byHop.set(hop, judged && heldBy(design, judged, hop));
    const held = byHop.get(hop)?.held.find((one) => one.licence === licence);
    return { licence, held, page: judged && !options.alone ? pageName(design, hop, options) : undefined };
  });
  return { all, today: design.session.today };
}

function judgedHere({ session, gone }: JudgedDesign, hop: string): boolean {
  return session.result(hop) !== undefined || gone.has(hop);
}

/** What of a hop stands for a time, and which time its page shows; undefined where nothing does. */
function timesOf(design: JudgedDesign, name: string): HopTimes | undefined {
  const parts = partsInTime(design.model, name);
  const left = design.gone.get(name);
  const shows = left === undefined ? viewWords(design.model.view) : `until it is taken down on ${left.until}`;
  return parts.length === 0 && left === undefined ? undefined : { shows, parts };
}

/**
 * Pages of the hops that stand no more on the day that the report shows, each as it stood last. Afterwards the session
 * is as before.
 */
export async function* pagesOfGone(design: JudgedDesign, options: PageOptions): AsyncIterable<Page> {
  const { model, session, gone } = design;
  const { view } = model;
  for (const [on, names] of Map.groupBy(gone.keys(), (name) => gone.get(name)!.on)) {
    model.setView({ ...view, on });
    await session.update();
    for (const name of names) {
      const page = await pageOfHop(design, name, options);
      if (page) yield page;
    }
  }
  model.setView(view);
  await session.update();
}

/** The other hop of a dual-band pair, with its page. */
function otherBandOf(design: JudgedDesign, name: string, options: PageOptions): OtherBand | undefined {
  const pair = design.session.inNetwork(name)?.pair;
  if (pair?.otherResult === undefined) return undefined;
  return { ...pair, page: options.alone ? undefined : pageName(design, pair.other.name, options) };
}

export function overviewOf(design: JudgedDesign, options: PageOptions): Page {
  const declared = design.model.names("hop").filter((name) => design.model.standsHop(name));
  return overviewPage({
    name: `${options.folder}index`,
    design: designOf(design),
    hops: hopsOf(design).flatMap((name) => {
      const left = design.gone.get(name);
      const judged = design.session.result(name) ?? left;
      if (!judged) return [];
      const findings = findingsOf(design, name).map((finding) => reportFinding(finding, design, false));
      const page = pageName(design, name, options);
      const changesOn = changesOf(design.model, name);
      return { hop: judged.hop, result: judged.result, findings, page, until: left?.until, changesOn };
    }),
    shows: shownTime(design),
    others: findingsOf(design, undefined).map((finding) => reportFinding(finding, design, true)),
    unresolved: declared.filter((name) => !design.session.result(name)),
    up: options.up,
    parts: options.alone ? undefined : partsName(options),
    catalogue: options.catalogue,
    sites: options.alone ? undefined : sitesShown(design, options),
    licences: licencesOf(design, options),
    demands: demandsTold(design, options),
    measured: measuredTold(design, options),
    colophon: colophon(design),
  });
}

/** Routes, loads and failures; undefined where no demand is stated. */
export function demandsOf(design: JudgedDesign, options: PageOptions): Page | undefined {
  const result = carriedIn(design);
  if (result === undefined) return undefined;
  return demandsPage({
    name: demandsName(options),
    title: design.title,
    result,
    findings: design.findings.filter(isOfDemands).map((one) => reportFinding(one, design, true)),
    pageOf: (kind, of) => {
      if (kind === "site") return sitePageName(design, of, options);
      return judgedHere(design, of) ? pageName(design, of, options) : undefined;
    },
    up: { text: design.title ?? "Overview", page: `${options.folder}index` },
    colophon: colophon(design),
  });
}

/** Readings of the network against what was promised; undefined where nothing was measured. */
export function calibrationIn(design: JudgedDesign, options: PageOptions): Page | undefined {
  const calibration = readingsOf(design);
  if (calibration === undefined) return undefined;
  return calibrationPage({
    name: calibrationName(options),
    title: design.title,
    calibration,
    pageOfHop: (hop) => (judgedHere(design, hop) ? pageName(design, hop, options) : undefined),
    up: { text: design.title ?? "Overview", page: `${options.folder}index` },
    colophon: colophon(design),
  });
}

function readingsOf({ session }: JudgedDesign): Calibration | undefined {
  return calibrationOf(session.results().values());
}

function measuredTold(design: JudgedDesign, options: PageOptions): OverviewInput["measured"] {
  const calibration = options.alone ? undefined : readingsOf(design);
  return calibration && { words: calibrationWords(calibration), page: calibrationName(options) };
}

/** What a hop carries; undefined where nothing is asked of the network, or the hop is no way for it. */
function carriedBy(design: JudgedDesign, hop: string, options: PageOptions): CarriedByHop | undefined {
  const { carried, passing } = viewedOf(design);
  const load = carried?.hops.get(hop);
  if (load === undefined) return undefined;
  const page = options.alone ? undefined : demandsName(options);
  return { load, demands: passing?.get(hop) ?? [], ...(page !== undefined && { page }) };
}

function demandsTold(design: JudgedDesign, options: PageOptions): OverviewInput["demands"] {
  const result = options.alone ? undefined : carriedIn(design);
  return result && { words: demandsWords(result), page: demandsName(options) };
}

/** The parts of the design; undefined while it has no hop. */
export function partsOf(
  design: JudgedDesign,
  options: PageOptions,
  planned?: readonly PlannedStep[],
): Page | undefined {
  const resolved = designOf(design);
  if (resolved.hops.size === 0) return undefined;
  return partsPage({
    name: partsName(options),
    design: resolved,
    sitePage: (site) => sitePageName(design, site, options),
    planned: planned?.flatMap(({ by, orders, licences }, index) => {
      const when = by === undefined ? "what is planned without a date" : `what stands by ${by}`;
      return [
        ...ordersSection(orders, `To order and to take down for ${when}`),
        ...licenceSection(licences, `Licences for ${when}`),
      ].map((section) => ({ ...section, id: `${section.id}-${index + 1}` }));
    }),
    up: { text: design.title ?? "Overview", page: `${options.folder}index` },
    colophon: colophon(design),
  });
}

/** A page for each site that has a hop or equipment, as it stands on the day that the report shows. */
export function* pagesOfSites(design: JudgedDesign, options: PageOptions): Iterable<Page> {
  for (const plan of plansOf(design).values()) yield pageOfPlan(design, plan, options);
}

/** @returns undefined for a site that has no page on the day that the report shows */
export function pageOfSite(design: JudgedDesign, site: string, options: PageOptions): Page | undefined {
  const plan = plansOf(design).get(site);
  return plan && pageOfPlan(design, plan, options);
}

function pageOfPlan(design: JudgedDesign, plan: SitePlan, options: PageOptions): Page {
  const { name } = plan.site;
  const results = new Map<string, HopResult>();
  const felt = new Map<string, readonly InterferenceAt[]>();
  for (const { hop } of plan.ends) {
    const judged = design.session.felt(hop.name);
    if (!judged) continue;
    results.set(hop.name, judged.result);
    felt.set(hop.name, judged.interference);
  }
  return sitePage({
    plan,
    design: designOf(design),
    results,
    felt,
    findings: findingsOfSite(design, name).map((one) => reportFinding(one, design, false)),
    pageOf: (kind, of) => {
      if (options.alone) return undefined;
      return kind === "hop" ? pageName(design, of, options) : sitePageName(design, of, options);
    },
    name: sitePageName(design, name, options)!,
    up: options.alone ? undefined : { text: design.title ?? "Overview", page: `${options.folder}index` },
    colophon: colophon(design),
  });
}

function sitesShown(design: JudgedDesign, options: PageOptions) {
  return [...plansOf(design).values()].map(({ site: { name, title } }) => ({
    name,
    title,
    page: sitePageName(design, name, options)!,
  }));
}

/** Terrain files as seen from the design, so that a page is the same wherever the design lies. */
function withShownFiles<
  T extends {
    readonly profile?: {
      readonly sources: readonly { readonly file: string; readonly sharePercent: number }[];
    };
  },
>(result: T, root: string): T {
  if (!result.profile) return result;
  const sources = result.profile.sources.map((source) => ({
    ...source,
    file: shownFrom(root, resolve(root, source.file)),
  }));
  return { ...result, profile: { ...result.profile, sources } };
}
