/** The connection to the language server: one process beside the editor, spoken to over Node's own channel. */
import * as vscode from "vscode";
import {
  InlayHintRequest,
  LanguageClient,
  type MessageSignature,
  State,
  TransportKind,
} from "vscode-languageclient/node";
import {
  CHANGED,
  CHECK,
  type ChangedParams,
  type CheckParams,
  COMPARE,
  type CompareParams,
  type CompareResult,
  type InitializationOptions,
  PLACE,
  type PlaceParams,
  type PlaceResult,
  REPORT,
  REVISIONS,
  type ReportParams,
  type ReportResult,
  type RevisionsResult,
  STATUS,
  type StatusParams,
  TRUSTED,
} from "../server/lsp/protocol.js";

export const LANGUAGE = "hopwright";

/** A client whose server is started anew: what the editor asks just then has no answer, which is no failure to tell. */
class RestartedClient extends LanguageClient {
  private isRestarting = false;

  override async restart(): Promise<void> {
    this.isRestarting = true;
    try {
      await super.restart();
    } finally {
      this.isRestarting = false;
    }
  }

  override handleFailedRequest<T>(
    type: MessageSignature,
    token: vscode.CancellationToken | undefined,
    error: unknown,
    instead: T,
    ...how: readonly [showNotification?: boolean, throwOnCancel?: boolean]
  ): T {
    return this.isRestarting ? instead : super.handleFailedRequest(type, token, error, instead, ...how);
  }
}

export class HopwrightClient {
  private readonly client: RestartedClient;
  private status: StatusParams | undefined;
  private readonly statusSent = new vscode.EventEmitter<StatusParams>();
  private readonly changedSent = new vscode.EventEmitter<ChangedParams>();
  private readonly stopped = new vscode.EventEmitter<void>();
  private turn: Promise<void> = Promise.resolve();
  readonly onStatus = this.statusSent.event;
  readonly onChanged = this.changedSent.event;
  readonly onStopped = this.stopped.event;

  constructor(context: vscode.ExtensionContext) {
    this.client = languageClient(context);
    this.client.onNotification(STATUS, (params: StatusParams) => {
      this.status = params;
      this.statusSent.fire(params);
    });
    this.client.onNotification(CHANGED, (params: ChangedParams) => this.changedSent.fire(params));
    this.client.onDidChangeState(({ newState }) => {
      if (newState === State.Stopped) this.stopped.fire();
      // Trust may have been given while the server was starting.
      if (newState === State.Running && vscode.workspace.isTrusted) void this.trust();
    });
    const hints = vscode.workspace.onDidChangeConfiguration((change) => {
      if (change.affectsConfiguration(`${LANGUAGE}.inlayHints`)) this.askHintsAgain();
    });
    context.subscriptions.push(this.statusSent, this.changedSent, this.stopped, hints);
  }

  /** Starts the server; a failure is told to the user and leaves colouring and snippets working. */
  start(): Promise<void> {
    return this.inTurn(() => this.client.start());
  }

  stop(): Promise<void> {
    return this.inTurn(async () => {
      if (this.client.needsStop()) await this.client.stop();
    });
  }

  restart(): Promise<void> {
    return this.inTurn(() => (this.client.needsStop() ? this.client.restart() : this.client.start()));
  }

  /** One after the other: a client that is stopped while it starts, or started while it stops, says that it failed. */
  private inTurn(step: () => Promise<void>): Promise<void> {
    this.turn = this.turn.then(async () => {
      try {
        await step();
      } catch (error) {
        // Nobody waits for the answer to a message that stays until it is read.
        void this.offerLog(vscode.l10n.t("The Hopwright server did not start: {0}", String(error)));
      }
    });
    return this.turn;
  }

  async check(uri: vscode.Uri | undefined): Promise<void> {
    const params: CheckParams = { uri: uri?.toString() };
    await this.client.sendRequest(CHECK, params);
  }

  /** @returns undefined while the server is starting, stopped, or knows no design at that place */
  async report(params: ReportParams): Promise<ReportResult | undefined> {
    if (!this.client.isRunning()) return undefined;
    return (await this.client.sendRequest<ReportResult | null>(REPORT, params)) ?? undefined;
  }

  /** Where the text states what a page draws; undefined where nothing does. */
  async place(params: PlaceParams): Promise<PlaceResult | undefined> {
    if (!this.client.isRunning()) return undefined;
    return (await this.client.sendRequest<PlaceResult | null>(PLACE, params)) ?? undefined;
  }

  /** @returns undefined while the server is starting or stopped */
  async compare(params: CompareParams): Promise<CompareResult | undefined> {
    if (!this.client.isRunning()) return undefined;
    return this.client.sendRequest<CompareResult>(COMPARE, params);
  }

  /** What a design can be compared with. */
  async revisions(uri: string): Promise<RevisionsResult | undefined> {
    if (!this.client.isRunning()) return undefined;
    return this.client.sendRequest<RevisionsResult>(REVISIONS, { uri });
  }

  /** A place of the design that is meant: of the document in front, else of one that is visible or open, else the first. */
  designInFront(): string | undefined {
    const isDesign = (document: vscode.TextDocument | undefined) => document?.languageId === LANGUAGE;
    const documents = [
      vscode.window.activeTextEditor?.document,
      ...vscode.window.visibleTextEditors.map(({ document }) => document),
      ...vscode.workspace.textDocuments,
    ];
    return documents.find(isDesign)?.uri.toString() ?? this.status?.designs[0]?.uri;
  }

  /** Tells the server that the user has come to trust the workspace. */
  async trust(): Promise<void> {
    if (this.client.isRunning()) await this.client.sendNotification(TRUSTED);
  }

  private askHintsAgain(): void {
    const hints = this.client.getFeature(InlayHintRequest.method);
    for (const document of vscode.workspace.textDocuments) {
      hints.getProvider(document)?.onDidChangeInlayHints.fire();
    }
  }

  private async offerLog(message: string): Promise<void> {
    const show = vscode.l10n.t("Show Log");
    if ((await vscode.window.showErrorMessage(message, show)) === show) this.client.outputChannel.show();
  }
}

function languageClient(context: vscode.ExtensionContext): RestartedClient {
  const module = vscode.Uri.joinPath(context.extensionUri, "dist", "hopwright.cjs").fsPath;
  // Not the workspace: a working folder is one of the places where systems look for what a program needs.
  const options = { cwd: context.extensionPath };
  const run = { module, args: ["lsp"], transport: TransportKind.ipc, options };
  return new RestartedClient(
    LANGUAGE,
    "Hopwright",
    { run, debug: { ...run, options: { ...options, execArgv: ["--nolazy", "--inspect=6019"] } } },
    {
      // Asked again when the server is restarted.
      initializationOptions: (): InitializationOptions => ({ trusted: vscode.workspace.isTrusted }),
      // What a revision or a comparison shows is coloured and nothing else.
      documentSelector: ["file", "untitled"].map((scheme) => ({ scheme, language: LANGUAGE })),
      middleware: {
        // A page of the reference is shown as it reads, not as it is written.
        handleDiagnostics: (uri, diagnostics, next) => {
          for (const { code } of diagnostics)
            if (typeof code === "object" && code.target) code.target = ruleCommand(code.target);
          next(uri, diagnostics);
        },
        provideInlayHints: (document, range, token, next) =>
          vscode.workspace.getConfiguration(LANGUAGE, document).get("inlayHints.enabled", true)
            ? next(document, range, token)
            : [],
      },
    },
  );
}

function ruleCommand(page: vscode.Uri): vscode.Uri {
  const name = page.path.split("/").at(-1)?.replace(/\.md$/, "") ?? "";
  return vscode.Uri.parse(`command:${LANGUAGE}.openRule?${encodeURIComponent(JSON.stringify([name]))}`);
}
