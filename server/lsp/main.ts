/** Entry of the language server's bundle: speaks over node IPC or standard input and output, as asked. */
import { createConnection, ProposedFeatures } from "vscode-languageserver/node";
import { startServer } from "./server.js";

startServer(createConnection(ProposedFeatures.all));
