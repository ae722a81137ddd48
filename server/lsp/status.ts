/** The counts that a client shows in its status line. */

import type { Severity } from "../../shared/design/finding.js";
import type { DesignSession } from "../session/design-session.js";
import type { Designs } from "./designs.js";
import { uriOf } from "./locations.js";
import type { DesignStatus, StatusParams } from "./protocol.js";

export function statusOf(designs: Designs, waiting: number): StatusParams {
  return { waiting, designs: designs.allSessions().map(designStatus) };
}

function designStatus(session: DesignSession): DesignStatus {
  const { model } = session;
  const count: Record<Severity, number> = { error: 0, warning: 0, info: 0 };
  for (const file of model.allFiles())
    for (const { severity } of model.problemsOf(file.path)) count[severity]++;
  for (const { findings } of session.results().values())
    for (const { severity } of findings) count[severity]++;
  for (const { severity } of session.networkFindings()) count[severity]++;
  return {
    title: model.title() ?? model.root.split("/").at(-1) ?? "",
    uri: uriOf(model.root),
    hops: model.names("hop").length,
    errors: count.error,
    warnings: count.warning,
    infos: count.info,
  };
}
