/** Fixes that are offered at a diagnostic. */
import { type CodeAction, CodeActionKind, type Connection } from "vscode-languageserver";
import type { DiagnosticData } from "./diagnostics.js";
import type { Designs } from "./designs.js";
import { linesOf, pathOf } from "./locations.js";

export function registerCodeActions(connection: Connection, designs: () => Designs): void {
  connection.onCodeAction(({ textDocument, context }): CodeAction[] => {
    const file = designs().file(pathOf(textDocument.uri));
    if (!file) return [];
    const lines = linesOf(file);
    return context.diagnostics.flatMap((diagnostic) => {
      const data = diagnostic.data as DiagnosticData | undefined;
      return (data?.fixes ?? []).map((fix): CodeAction => ({
        title: fix.title,
        kind: CodeActionKind.QuickFix,
        diagnostics: [diagnostic],
        edit: { changes: { [textDocument.uri]: [{ range: lines.range(fix.start, fix.end), newText: fix.newText }] } },
      }));
    });
  });
}
