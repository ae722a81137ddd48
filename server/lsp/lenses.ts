/** Lenses over declarations: what changed since the revision that is compared with, and what remains when one is gone. */
import type { CodeLens, Connection } from "vscode-languageserver";
import { failureLenses } from "../../language/editor/failure-lenses.js";
import { linesOf } from "../findings/lines.js";
import type { CompareHost } from "./compare-host.js";
import type { Designs } from "./designs.js";
import { pathOf } from "./locations.js";

export function registerLenses(connection: Connection, designs: () => Designs, compared: CompareHost): void {
  connection.onCodeLens(({ textDocument }) => {
    const path = pathOf(textDocument.uri);
    return [...compared.lenses(path), ...lensesOfFailures(path, designs())];
  });
}

/** A lens of what fails is a sentence and leads nowhere. */
function lensesOfFailures(path: string, designs: Designs): CodeLens[] {
  const [file, session] = [designs.file(path), designs.sessionAt(path)];
  if (!file || !session) return [];
  const lines = linesOf(file);
  return failureLenses(file, () => session.carried()).map(({ offset, text }) => ({
    range: lines.range(offset, offset),
    command: { title: text, command: "" },
  }));
}
