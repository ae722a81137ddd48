import { Console } from "node:console";
import { createConnection, ProposedFeatures } from "vscode-languageserver/node";
import { startServer } from "../../lsp/server.js";
import { Gate } from "../../lsp/transport/gate.js";
import { inputOver, outputOver } from "../../lsp/transport/streams.js";
import { note } from "../streams.js";

/** Speaks the language server protocol until the other side ends it. */
export function lsp({ stdio }: { readonly stdio: boolean }): void {
  const gate = new Gate((line) => connection.console.warn(`left unheeded: ${line}`));
  const options = { messageStrategy: gate };
  const connection = stdio
    ? createConnection(ProposedFeatures.all, input(gate), outputOver(process.stdout), options)
    : // The channel of our own extension: what started the server has the messages in its own memory.
      createConnection(ProposedFeatures.all, options);
  startServer(connection);
}

function input(gate: Gate) {
  // Standard output is the protocol's alone; what a library has to say goes elsewhere.
  globalThis.console = new Console(process.stderr);
  return inputOver(process.stdin, (reason) => {
    if (reason !== undefined) note(`error: the input is no language server protocol: ${reason}`);
    process.exit(gate.isShutDown ? 0 : 1);
  });
}
