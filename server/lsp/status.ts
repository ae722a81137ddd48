/** The counts that a client shows in its status line. */

import type { SourceFile } from "../../language/model/source-file.js";
import type { Severity } from "../../shared/design/severity.js";
import { findingsDeclaredIn } from "../findings/declared-in.js";
import type { DesignSession } from "../session/design-session.js";
import type { Designs } from "./designs.js";
import { uriOf } from "./locations.js";
import type { DesignStatus, Standing, StatusParams } from "./protocol.js";

export function statusOf(designs: Designs, waiting: number): StatusParams {
  const ofDesigns = designs.allSessions().map((session) => {
    const open = [...designs.openFiles()].filter((path) => session.model.file(path));
    return designStatus(session, designs.standingOf(session), open, findingsOf(session));
  });
  const ofCopies = [...designs.unsavedSessions()].map(([path, session]) =>
    designStatus(session, "copy", [path], findingsIn(session.model.file(path)!, session)),
  );
  return { waiting, designs: [...ofDesigns, ...ofCopies] };
}

function* findingsOf(session: DesignSession): Iterable<Graded> {
  const { model } = session;
  for (const file of model.allFiles()) yield* model.problemsOf(file.path);
  for (const { findings } of session.results().values()) yield* findings;
  yield* session.networkFindings();
}

/** Of the copy of a design that an unsaved document is judged with only what stands in the document counts. */
function* findingsIn(file: SourceFile, session: DesignSession): Iterable<Graded> {
  yield* session.model.problemsOf(file.path);
  yield* findingsDeclaredIn(file, session);
}

interface Graded {
  readonly severity: Severity;
}

function designStatus(
  { model }: DesignSession,
  standing: Standing,
  open: readonly string[],
  findings: Iterable<Graded>,
): DesignStatus {
  const count: Record<Severity, number> = { error: 0, warning: 0, info: 0 };
  for (const { severity } of findings) count[severity]++;
  const [file] = model.allFiles();
  const place = standing === "alone" ? (file?.path ?? "") : model.root;
  return {
    title: model.title() ?? place.split("/").at(-1) ?? "",
    standing,
    documents: open.map(uriOf),
    uri: uriOf(model.root),
    hops: model.names("hop").length,
    errors: count.error,
    warnings: count.warning,
    infos: count.info,
  };
}
