/** What the engine finds of what one file declares: its hops, and what the network says at places in it. */
import type { SourceFile } from "../../language/model/source-file.js";
import type { Finding } from "../../shared/design/finding.js";
import type { DesignSession } from "../session/design-session.js";

export function findingsDeclaredIn(file: SourceFile, session: DesignSession): Finding[] {
  const ofHops = file.declarations
    .filter((entry) => entry.kind === "hop" && session.model.declarations(entry.key)[0] === entry)
    .flatMap((entry) => session.result(entry.name)?.findings ?? []);
  return [...ofHops, ...session.networkFindingsIn(file.path)];
}
