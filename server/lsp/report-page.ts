/** The page that a client shows beside the text: a hop's, a site's, one of the catalogue, or the overview of their design; and the way back. */
import { addressAt } from "../../language/model/address-at.js";
import { declarationAt } from "../../language/model/declaration-at.js";
import type { DesignModel } from "../../language/model/design-model.js";
import { fileOf, locate } from "../../language/model/locate.js";
import { printHtml } from "../../shared/report/document/html.js";
import { escaped } from "../../shared/report/document/markup.js";
import { judgedDesign } from "../findings/judged-folder.js";
import { linesOf } from "../findings/lines.js";
import { isTaught, pageOfEntry } from "../report/catalogue-pages.js";
import { overviewOf, pageOfHop, pageOfSite } from "../report/design-pages.js";
import type { DesignSession } from "../session/design-session.js";
import type { Designs } from "./designs.js";
import { locationOf, pathOf } from "./locations.js";
import type { PlaceParams, PlaceResult, ReportParams, ReportResult } from "./protocol.js";

/** What a page is about. */
type Subject = Pick<ReportResult, "hop" | "site" | "entry">;

export async function reportPage(
  designs: Designs,
  params: ReportParams,
  today: string,
): Promise<ReportResult | null> {
  const path = pathOf(params.uri);
  const { hop: ofHop, site, entry } = params;
  const named = ofHop !== undefined || site !== undefined || entry !== undefined;
  const subject: Subject = named ? { hop: ofHop, site, entry } : subjectAt(designs, path, params);
  const { hop } = subject;
  const sessions = designs.sessionsOf(path);
  const session = sessions.find((one) => hop === undefined || one.result(hop)) ?? designs.sessionAt(path);
  if (!session) return null;
  const page = await pageOf(session, subject, today);
  return { ...page, at: drawnAt(page.html, addressOfCaret(designs, session.model, path, params)) };
}

async function pageOf(
  session: DesignSession,
  { hop, site, entry }: Subject,
  today: string,
): Promise<ReportResult> {
  const design = judgedDesign(session.model, session);
  const options = { folder: "", today, alone: true };
  const ofHop = hop === undefined ? undefined : await pageOfHop(design, hop, options);
  const ofSite = ofHop || site === undefined ? undefined : pageOfSite(design, site, options);
  const ofEntry = entry === undefined ? undefined : pageOfEntry(design, entry, options);
  return {
    title: (ofHop && hop) ?? (ofSite && site) ?? (ofEntry && entry) ?? session.model.title() ?? "Design",
    hop: ofHop && hop,
    site: ofSite && site,
    entry: ofEntry && entry,
    html: printHtml(ofHop ?? ofSite ?? ofEntry ?? overviewOf(design, options)).text,
  };
}

/** The hop, site or entry whose declaration covers the line. */
function subjectAt(designs: Designs, path: string, { line }: ReportParams): Subject {
  const file = line === undefined ? undefined : designs.file(path);
  if (!file) return {};
  const lines = linesOf(file);
  const found = file.declarations.find(
    ({ kind, fact }) =>
      (kind === "hop" || kind === "site" || isTaught(kind)) &&
      lines.position(fact.statement.start).line <= line! &&
      line! <= lines.position(fact.statement.end).line,
  );
  if (!found) return {};
  return isTaught(found.kind) ? { entry: `${found.kind} ${found.name}` } : { [found.kind]: found.name };
}

/** As the design counts on the day that it is looked at. */
function addressOfCaret(
  designs: Designs,
  model: DesignModel,
  path: string,
  { line, character = 0 }: ReportParams,
): string | undefined {
  const file = line === undefined ? undefined : designs.file(path);
  if (!file) return undefined;
  const lines = linesOf(file);
  // Before the first word of a line the line is meant.
  const indent = /^\s*/.exec(lines.text(line!))![0].length;
  const offset = lines.offset({ line: line!, character: Math.max(indent, character) });
  if (!declarationAt(file, offset)) return undefined;
  return addressAt(file, offset, ({ key, fact }) =>
    model.standing(key).find((entry) => entry.fact.statement === fact.statement),
  );
}

/** The address itself, or the nearest one around it that the page draws. */
function drawnAt(html: string, address: string | undefined): string | undefined {
  for (let at = address; at !== undefined; ) {
    if (html.includes(` data-at="${escaped(at)}"`)) return at;
    const end = at.lastIndexOf(" / ");
    at = end < 0 ? undefined : at.slice(0, end);
  }
  return undefined;
}

/** A page may name anything: what the design does not declare is nowhere. */
export function placeDrawn(designs: Designs, { uri, at }: PlaceParams): PlaceResult | null {
  designs.refresh();
  const path = pathOf(uri);
  const sessions = designs.sessionsOf(path);
  const asked = sessions.length > 0 ? sessions : [designs.sessionAt(path)];
  for (const model of asked.flatMap((session) => session?.model ?? [])) {
    if (fileOf(at, model) === undefined) continue;
    const place = locate(at, model);
    const file = place && designs.file(place.file);
    if (place && file) return locationOf(file, place.start, place.end);
  }
  return null;
}
