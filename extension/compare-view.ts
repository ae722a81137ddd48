/** What changed since a revision, beside the text: a page, and marks in the margin for as long as it is open. */
import * as vscode from "vscode";
import type { ChangedParams } from "../server/lsp/protocol.js";
import { ChangeMarks } from "./change-marks.js";
import type { HopwrightClient } from "./client.js";
import { pickRevision } from "./pick-revision.js";
import { reportShell } from "./report-shell.js";

export class CompareView implements vscode.Disposable {
  private panel: vscode.WebviewPanel | undefined;
  private asked: { readonly uri: string; readonly revision: string } | undefined;
  private readonly marks = new ChangeMarks();
  private readonly follow: vscode.Disposable;

  constructor(
    private readonly extensionUri: vscode.Uri,
    private readonly client: HopwrightClient,
  ) {
    this.follow = vscode.Disposable.from(
      client.onChanged((params) => this.changed(params)),
      vscode.workspace.onDidGrantWorkspaceTrust(() => this.trusted()),
    );
  }

  /** @param revision as git names it; asked of the user when it is not given */
  async open(revision?: string): Promise<void> {
    const uri = this.client.designInFront() ?? this.asked?.uri;
    if (uri === undefined) {
      await vscode.window.showInformationMessage(vscode.l10n.t("Open a .hop file to compare its design."));
      return;
    }
    const name = typeof revision === "string" ? revision : await this.askForRevision(uri);
    if (!name) return;
    this.asked = { uri, revision: name };
    await vscode.window.withProgress(
      { location: vscode.ProgressLocation.Window, title: vscode.l10n.t("Comparing with {0}", name) },
      () => this.refresh(),
    );
  }

  dispose(): void {
    this.follow.dispose();
    this.marks.dispose();
    this.panel?.dispose();
  }

  /** From branches, tags and commits; anything else that git knows can be typed. */
  private async askForRevision(uri: string): Promise<string | undefined> {
    const answer = await this.client.revisions(uri);
    if (answer?.untrusted) {
      // Comparing asks for trust, and goes on once it is given.
      return this.asked?.revision ?? "HEAD";
    }
    if (answer?.problem !== undefined) {
      void vscode.window.showErrorMessage(answer.problem);
      return undefined;
    }
    return pickRevision(answer?.revisions ?? [], this.asked?.revision);
  }

  private async refresh(): Promise<void> {
    const { asked } = this;
    if (!asked) return;
    const answer = await this.client.compare(asked);
    if (asked !== this.asked || !answer) return;
    // Nobody waits for a message to be answered: the work is done.
    if (answer.untrusted) {
      void askForTrust(answer.problem!);
      return;
    }
    if (answer.html === undefined) {
      void vscode.window.showErrorMessage(answer.problem ?? vscode.l10n.t("There is nothing to compare."));
      return;
    }
    this.panel ??= this.createPanel();
    this.panel.title = answer.title ?? vscode.l10n.t("Changes");
    await this.panel.webview.postMessage({ subject: asked.revision, html: answer.html });
  }

  private changed(params: ChangedParams): void {
    this.marks.show(params);
    if (this.panel && params.revision !== undefined) void this.refresh();
  }

  /** What was asked for while the workspace was not trusted is done now. */
  private async trusted(): Promise<void> {
    await this.client.trust();
    await this.refresh();
  }

  private createPanel(): vscode.WebviewPanel {
    const media = vscode.Uri.joinPath(this.extensionUri, "extension", "media");
    const panel = vscode.window.createWebviewPanel(
      "hopwright.changes",
      vscode.l10n.t("Changes"),
      { viewColumn: vscode.ViewColumn.Beside, preserveFocus: true },
      { enableScripts: true, enableFindWidget: true, localResourceRoots: [media] },
    );
    panel.iconPath = vscode.Uri.joinPath(media, "file.svg");
    panel.webview.html = reportShell(panel.webview, media);
    panel.webview.onDidReceiveMessage((message: { ready?: true }) => {
      if (message.ready) void this.refresh();
    });
    panel.onDidDispose(() => {
      this.panel = undefined;
      const uri = this.asked?.uri;
      this.asked = undefined;
      if (uri !== undefined) void this.client.compare({ uri, revision: null });
    });
    return panel;
  }
}

async function askForTrust(problem: string): Promise<void> {
  const manage = vscode.l10n.t("Manage Workspace Trust");
  if ((await vscode.window.showWarningMessage(problem, manage)) === manage)
    await vscode.commands.executeCommand("workbench.trust.manage");
}
