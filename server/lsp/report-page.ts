/** The page that a client shows beside the text: a hop's, or the overview of its design. */
import { printHtml } from "../../shared/report/document/html.js";
import { judgedDesign } from "../findings/judged-folder.js";
import { linesOf } from "../findings/lines.js";
import { overviewOf, pageOfHop } from "../report/design-pages.js";
import type { DesignSession } from "../session/design-session.js";
import type { Designs } from "./designs.js";
import { pathOf } from "./locations.js";
import type { ReportParams, ReportResult } from "./protocol.js";

export async function reportPage(
  designs: Designs,
  { uri, line, hop }: ReportParams,
  today: string,
): Promise<ReportResult | null> {
  const path = pathOf(uri);
  const name = hop ?? (line === undefined ? undefined : hopAt(designs, path, line));
  const sessions = designs.sessionsOf(path);
  const session = sessions.find((one) => name === undefined || one.result(name)) ?? designs.sessionAt(path);
  return session ? pageOf(session, name, today) : null;
}

async function pageOf(
  session: DesignSession,
  name: string | undefined,
  today: string,
): Promise<ReportResult> {
  const design = judgedDesign(session.model, session);
  const options = { folder: "", today, alone: true };
  const page = name === undefined ? undefined : await pageOfHop(design, name, options);
  const shown = page ?? overviewOf(design, options);
  return {
    title: page ? name! : (session.model.title() ?? "Design"),
    hop: page ? name : undefined,
    html: printHtml(shown).text,
  };
}

/** The hop whose declaration covers the line. */
function hopAt(designs: Designs, path: string, line: number): string | undefined {
  const file = designs.file(path);
  if (!file) return undefined;
  const lines = linesOf(file);
  return file.declarations.find(
    ({ kind, fact }) =>
      kind === "hop" &&
      lines.position(fact.statement.start).line <= line &&
      line <= lines.position(fact.statement.end).line,
  )?.name;
}
