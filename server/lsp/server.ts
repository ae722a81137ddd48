/**
 * The language server: keeps the designs of the opened folders current and answers for them. This file
 * wires; what is answered is worked out in language/ (text) and shared/ (engineering).
 */
import {
  type Connection,
  type InitializeParams,
  type InitializeResult,
  type ServerCapabilities,
  TextDocumentSyncKind,
  TextDocuments,
  type WorkspaceFoldersChangeEvent,
} from "vscode-languageserver";
import { TextDocument } from "vscode-languageserver-textdocument";
import { today } from "../today.js";
import { CompareHost } from "./compare-host.js";
import { Designs } from "./designs.js";
import { Evaluation } from "./evaluation.js";
import { registerFeatures, SEMANTIC_LEGEND } from "./features.js";
import { registerLenses } from "./lenses.js";
import { isJudged, pathOf, uriOf } from "./locations.js";
import {
  CHECK,
  type CheckParams,
  type InitializationOptions,
  PLACE,
  type PlaceParams,
  PROPOSE_CHANNELS,
  REPORT,
  type ReportParams,
  STATUS,
  TRUSTED,
} from "./protocol.js";
import { placeDrawn, reportPage } from "./report-page.js";
import { statusOf } from "./status.js";
import { answerRefused } from "./transport/gate.js";
import { Watching } from "./watching.js";

export function startServer(connection: Connection): void {
  const documents = new TextDocuments(TextDocument);
  let designs = new Designs([], sessionOptions());
  let evaluation = newEvaluation();
  let watching: Watching | undefined;
  let canRefreshHints = false;
  let tellsFolders = false;
  let confirmsEdits = false;
  /** Done when what changed on disk was looked at: whoever asks for the state of things waits for it. */
  let looking: Promise<void> = Promise.resolve();
  const compared = new CompareHost(
    connection,
    () => designs,
    () => evaluation,
  );

  function newEvaluation(): Evaluation {
    return new Evaluation(designs, {
      today,
      publish: (path, diagnostics) => void connection.sendDiagnostics({ uri: uriOf(path), diagnostics }),
      changed: () => {
        if (canRefreshHints) void connection.languages.inlayHint.refresh().catch(() => undefined);
      },
      status: (waiting) => {
        void connection.sendNotification(STATUS, statusOf(designs, waiting));
        if (waiting > 0) return;
        compared.settled();
        if (designs.allSessions().some((session) => session.carried() !== undefined))
          compared.refreshLenses();
        watching?.follow(designs);
      },
      failed: (error) =>
        connection.console.error(
          `evaluation failed: ${error instanceof Error ? (error.stack ?? error.message) : error}`,
        ),
    });
  }

  connection.onInitialize((params): InitializeResult => {
    designs = new Designs(foldersOf(params), sessionOptions());
    evaluation = newEvaluation();
    const watches = params.capabilities.workspace?.didChangeWatchedFiles;
    if (watches?.dynamicRegistration)
      watching = new Watching(connection, foldersOf(params), watches.relativePatternSupport ?? false);
    const edits = params.capabilities.workspace?.workspaceEdit;
    confirmsEdits = edits?.documentChanges === true && edits.changeAnnotationSupport !== undefined;
    tellsFolders = params.capabilities.workspace?.workspaceFolders ?? false;
    canRefreshHints = params.capabilities.workspace?.inlayHint?.refreshSupport ?? false;
    const options: InitializationOptions | undefined = params.initializationOptions;
    if (options?.trusted === true) compared.trust();
    compared.canRefreshLenses = params.capabilities.workspace?.codeLens?.refreshSupport ?? false;
    return {
      serverInfo: { name: "hopwright" },
      capabilities: CAPABILITIES,
    };
  });

  connection.onInitialized(() => {
    watching?.start();
    designs.load();
    evaluation.touch();
    if (tellsFolders) connection.workspace.onDidChangeWorkspaceFolders(changeFolders);
  });

  function changeFolders({ added, removed }: WorkspaceFoldersChangeEvent): void {
    const gone = new Set(removed.map(({ uri }) => pathOf(uri)));
    const folders = designs.openedFolders().filter((folder) => !gone.has(folder));
    designs.setFolders([...new Set([...folders, ...added.map(({ uri }) => pathOf(uri))])]);
    watching?.setFolders(designs.openedFolders());
    evaluation.touch();
  }

  documents.onDidChangeContent(({ document }) => {
    if (!isJudged(document.uri)) return;
    designs.edit(pathOf(document.uri), document.getText());
    evaluation.touch();
  });
  documents.onDidClose(({ document }) => {
    if (!isJudged(document.uri)) return;
    designs.close(pathOf(document.uri));
    evaluation.touch();
  });

  connection.onDidChangeWatchedFiles(({ changes }) => {
    const paths = changes.map(({ uri }) => pathOf(uri));
    for (const path of paths) designs.changedOnDisk(path);
    const others = paths.filter((path) => !path.endsWith(".hop"));
    looking = looking.then(() => lookAgain(others)).then(() => evaluation.touch());
  });

  async function lookAgain(files: readonly string[]): Promise<void> {
    if (files.length === 0) return;
    for (const session of [...designs.allSessions(), ...designs.unsavedSessions().values()])
      await session.refreshGround(files);
  }

  connection.onNotification(TRUSTED, () => compared.trust());
  connection.onRequest(CHECK, async (_: CheckParams) => {
    await looking;
    evaluation.touch();
    await evaluation.settled();
    return statusOf(designs, 0);
  });
  connection.onRequest(REPORT, async (params: ReportParams) => {
    await looking;
    await evaluation.settled();
    return reportPage(designs, params, sessionOptions().today);
  });
  connection.onRequest(PLACE, (params: PlaceParams) => placeDrawn(designs, params));

  registerFeatures(
    connection,
    () => designs,
    (uri) => documents.get(uri)?.getText(),
    () => confirmsEdits,
  );
  registerLenses(connection, () => designs, compared);
  answerRefused(connection);
  documents.listen(connection);
  connection.listen();
}

const CAPABILITIES: ServerCapabilities = {
  textDocumentSync: { openClose: true, change: TextDocumentSyncKind.Incremental },
  completionProvider: { triggerCharacters: [" ", "/", '"', ","] },
  documentLinkProvider: {},
  hoverProvider: true,
  definitionProvider: true,
  referencesProvider: true,
  documentHighlightProvider: true,
  renameProvider: { prepareProvider: true },
  documentSymbolProvider: true,
  workspaceSymbolProvider: true,
  foldingRangeProvider: true,
  documentFormattingProvider: true,
  inlayHintProvider: true,
  codeLensProvider: {},
  codeActionProvider: { codeActionKinds: ["quickfix"] },
  executeCommandProvider: { commands: [PROPOSE_CHANNELS], workDoneProgress: true },
  semanticTokensProvider: { legend: SEMANTIC_LEGEND, full: true },
  workspace: { workspaceFolders: { supported: true, changeNotifications: true } },
};

function foldersOf(params: InitializeParams): string[] {
  const folders = params.workspaceFolders?.map(({ uri }) => pathOf(uri)) ?? [];
  if (folders.length > 0) return folders;
  const root = params.rootUri ?? undefined;
  return root === undefined ? [] : [pathOf(root)];
}

function sessionOptions() {
  return { today: today() };
}
