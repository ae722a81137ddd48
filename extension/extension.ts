/** The client: starts the language server and shows what it says. It computes nothing. */
import * as vscode from "vscode";
import { HopwrightClient } from "./client.js";
import { CompareView } from "./compare-view.js";
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
  });
  server.onStopped(() => status.showStopped());
  const command = (name: string, run: (...args: never[]) => unknown) =>
    vscode.commands.registerCommand(`hopwright.${name}`, run);
  context.subscriptions.push(
    status,
    report,
    compared,
    command("check", () => checkDesign(server)),
    command("openReport", (hop?: string) => report.open(hop)),
    command("compare", (revision?: string) => compared.open(revision)),
    command("restartServer", () => server.restart()),
    command("openSample", () => openSample(context.extensionUri)),
  );
  await server.start();
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
