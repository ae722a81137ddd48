/** The client: starts the language server and shows what it says. It computes nothing. */
import * as vscode from "vscode";
import { HopwrightClient, LANGUAGE } from "./client.js";
import { CompareView } from "./compare-view.js";
import { designIsNear } from "./design-look.js";
import { openSample } from "./open-sample.js";
import { ReportView } from "./report-view.js";
import { StatusItem } from "./status-item.js";

let client: HopwrightClient | undefined;

export async function activate(context: vscode.ExtensionContext): Promise<void> {
  const server = new HopwrightClient(context);
  client = server;
  const status = new StatusItem();
  const report = new ReportView(context.extensionUri, server);
  const compared = new CompareView(context.extensionUri, server);
  server.onStatus((params) => {
    status.show(params);
    report.refreshSoon();
    const hasHops = params.designs.some(({ hops }) => hops > 0);
    void vscode.commands.executeCommand("setContext", "hopwright.designOpen", hasHops);
  });
  server.onStopped(() => status.showStopped());
  let started: Promise<void> | undefined;
  const start = () => {
    status.showStarting();
    started ??= server.start();
    return started;
  };
  const command = (name: string, run: (...args: never[]) => unknown) =>
    vscode.commands.registerCommand(`hopwright.${name}`, run);
  const onServer = (name: string, run: (...args: never[]) => unknown) =>
    command(name, async (...args) => {
      await start();
      return run(...args);
    });
  context.subscriptions.push(
    status,
    report,
    compared,
    onServer("check", () => checkDesign(server)),
    onServer("openReport", (hop?: string) => report.open(hop)),
    onServer("compare", (revision?: string) => compared.open(revision)),
    command("restartServer", () => (started ? server.restart() : start())),
    command("openRule", (rule: string) => openRule(context.extensionUri, rule)),
    command("openSample", () => openSample(context.extensionUri)),
    vscode.workspace.onDidOpenTextDocument((document) => {
      if (document.languageId === LANGUAGE) void start();
    }),
    vscode.workspace.onDidChangeWorkspaceFolders(() => void startWhereDesignIs(start)),
  );
  await startWhereDesignIs(start);
}

/** Nobody waits for a server without a design: it starts on the first document, or where one is seen at once. */
async function startWhereDesignIs(start: () => Promise<void>): Promise<void> {
  const isOpen = vscode.workspace.textDocuments.some(({ languageId }) => languageId === LANGUAGE);
  if (isOpen || (await designIsNear())) await start();
}

/** The page of a rule, rendered. */
async function openRule(extensionUri: vscode.Uri, rule: string): Promise<void> {
  if (!/^[a-z][a-z-]*$/.test(rule)) return;
  const page = vscode.Uri.joinPath(extensionUri, "language", "reference", "rules", `${rule}.md`);
  await vscode.commands.executeCommand("markdown.showPreview", page);
}

export function deactivate(): Promise<void> | undefined {
  return client?.stop();
}

/** Judges the whole design of the file in front, however the settings say it is judged while typing. */
async function checkDesign(server: HopwrightClient): Promise<void> {
  const uri = vscode.window.activeTextEditor?.document.uri;
  await vscode.window.withProgress(
    { location: vscode.ProgressLocation.Window, title: vscode.l10n.t("Checking the design") },
    () => server.check(uri),
  );
  await vscode.commands.executeCommand("workbench.panel.markers.view.focus");
}
