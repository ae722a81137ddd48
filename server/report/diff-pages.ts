/** The page of each compared design, put together from what the host has at hand. */
import { findingsIn, type HopChange, isEmpty } from "../../shared/compare/change-set.js";
import type { FindingChange } from "../../shared/compare/findings.js";
import { changePage, keyFigures } from "../../shared/compare/page/page.js";
import { goesOn, type TimedChanges } from "../../shared/compare/times.js";
import type { Figure, Page } from "../../shared/report/document/document.js";
import { drawProfileChange } from "../../shared/report/draw/profile-change.js";
import type { ComparedDesign, FolderComparison } from "../compare/compare-folders.js";
import { shownFrom } from "../findings/paths.js";
import { Placer } from "../findings/placed.js";
import type { DesignSession } from "../session/design-session.js";
import { ground } from "../session/ground.js";
import { VERSION } from "../version.js";

export interface ChangePagesOptions {
  /** Drawings and key figures; without them all is told in words and tables. */
  readonly drawings: boolean;
}

export async function changePages(
  compared: FolderComparison,
  { drawings }: ChangePagesOptions,
): Promise<Page[]> {
  const pages: Page[] = [];
  const changed = compared.designs.filter(
    ({ times, movedFrom }) => times.some(({ changes }) => !isEmpty(changes)) || movedFrom !== undefined,
  );
  for (const [index, design] of (changed.length > 0 ? changed : compared.designs.slice(0, 1)).entries()) {
    const figures = drawings ? await profilesOf(design) : new Map<string, Figure>();
    pages.push(
      changePage({
        name: index === 0 ? "changes" : `changes-${index + 1}`,
        title: design.title === undefined ? "Changes" : `Changes of ${design.title}`,
        subtitle: subtitleOf(compared, design),
        times: design.times.map((one) => ({ ...one, where: whereThen(one, design) })),
        inWords: !drawings,
        notes: compared.notes,
        drawing: ({ hop }) => figures.get(hop),
        colophon: `Computed by Hopwright ${VERSION} from the text of both sides. Differences below the last digit printed are left out. Predictions are no measurement and no survey.`,
      }),
    );
  }
  return pages;
}

/** Several designs on one page, for a printer that makes one file. */
export function together(pages: readonly Page[], { designs }: FolderComparison): Page {
  const [first] = pages as [Page];
  if (pages.length === 1) return first;
  const sections = pages.flatMap(({ title, sections }, index) =>
    sections.map((section) => ({
      ...section,
      id: `${index + 1}-${section.id}`,
      title: `${title.replace(/^Changes of /, "")}: ${section.title}`,
    })),
  );
  return {
    ...first,
    title: "Changes",
    keyFigures: keyFigures(designs.flatMap(({ times }) => times.map(({ changes }) => changes))),
    sections,
  };
}

function sideName(side: { readonly name: string; readonly short: string } | undefined): string {
  if (!side) return "the work tree";
  return side.name.startsWith(side.short) ? side.name : `${side.name} (${side.short})`;
}

function subtitleOf(
  { was, is, repository, on }: FolderComparison,
  { movedFrom, root }: ComparedDesign,
): string {
  const moved =
    movedFrom === undefined
      ? ""
      : `; the folder was ${shownFrom(repository.root, movedFrom)}, is ${shownFrom(repository.root, root)}`;
  const both = on === undefined ? "" : `, as both stand on ${on}`;
  return `From ${sideName(was)} to ${sideName(is)}${both}${moved}`;
}

function whereOf({ is }: FindingChange, placer: Placer, { root }: ComparedDesign): string | undefined {
  const place = is && placer.ofFinding(is).place;
  return place && `${shownFrom(root, place.file)}:${place.line}:${place.column}`;
}

/** Where findings of a time stand: addresses count what stands then. */
function whereThen(time: TimedChanges, design: ComparedDesign) {
  const { span, changes } = time;
  const { model, today } = design.is;
  const { view } = model;
  if (!goesOn(time)) model.setView({ on: span.from || today });
  const placer = new Placer(model);
  const places = new Map(
    findingsIn(changes).map((change) => [change, whereOf(change, placer, design)] as const),
  );
  model.setView(view);
  return (change: FindingChange) => places.get(change);
}

/** Beyond these the page would be longer than anybody reads. */
const MOST_DRAWINGS = 40;

/** Both profiles over each other, of the hops whose clearance or length changed. */
async function profilesOf({ changes, was, is }: ComparedDesign): Promise<Map<string, Figure>> {
  const drawn = new Map<string, Figure>();
  for (const change of changes.hops) {
    if (drawn.size >= MOST_DRAWINGS) break;
    if (!change.figures.some(({ kind }) => kind === "clearance" || kind === "length")) continue;
    const [before, now] = [await sideOf(was, change.renamedFrom ?? change.hop), await sideOf(is, change.hop)];
    const drawing = drawProfileChange(before, now);
    if (!drawing) continue;
    drawn.set(change.hop, {
      type: "figure",
      name: `profile-${change.hop}`,
      svg: drawing.svg,
      alt: drawing.alt,
      caption: drawing.caption,
    });
  }
  return drawn;
}

async function sideOf(session: DesignSession, name: HopChange["hop"]) {
  const judged = session.result(name);
  if (!judged) return undefined;
  const { profile } = await ground(session.read(judged.hop), session.terrain());
  return profile && { hop: judged.hop, result: judged.result, profile };
}
