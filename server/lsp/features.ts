/** Registers what the editor asks about a document. Each handler looks the answer up in language/ and converts it. */
import type { Connection, TextEdit } from "vscode-languageserver";
import { formatText } from "../../language/format/format.js";
import type { Designs } from "./designs.js";
import { linesOf, pathOf } from "./locations.js";

export const SEMANTIC_LEGEND = { tokenTypes: [] as string[], tokenModifiers: [] as string[] };

export function registerFeatures(connection: Connection, designs: () => Designs): void {
  connection.onDocumentFormatting(({ textDocument }): TextEdit[] => {
    const file = designs().file(pathOf(textDocument.uri));
    const formatted = file && formatText(file.text);
    if (!file || !formatted?.ok || formatted.text === file.text) return [];
    return [{ range: linesOf(file).range(0, file.text.length), newText: formatted.text }];
  });
}
