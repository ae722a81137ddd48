import { createConnection, ProposedFeatures } from "vscode-languageserver/node";
import { startServer } from "../../lsp/server.js";

/** Speaks the language server protocol, over what the command line names, until the other side ends it. */
export function lsp(): void {
  startServer(createConnection(ProposedFeatures.all));
}
