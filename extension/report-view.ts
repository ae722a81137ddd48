/** The report beside the text: follows the caret from hop to site to entry and is drawn anew when a result changes. */
import * as vscode from "vscode";
import type { ReportParams } from "../server/lsp/protocol.js";
import { type HopwrightClient, LANGUAGE } from "./client.js";
import { PointedPlace } from "./pointed-place.js";
import { reportShell } from "./report-shell.js";

/** Long enough that a held cursor key does not ask for every hop it passes. */
const SETTLE_MS = 150;

export class ReportView implements vscode.Disposable {
  private panel: vscode.WebviewPanel | undefined;
  private wanted: ReportParams | undefined;
  /** What the page draws of where the caret is. */
  private caretAt: string | undefined;
  private timer: ReturnType<typeof setTimeout> | undefined;
  private readonly follow: vscode.Disposable;
  private readonly pointed: PointedPlace;

  constructor(
    private readonly extensionUri: vscode.Uri,
    private readonly client: HopwrightClient,
  ) {
    this.pointed = new PointedPlace(client);
    this.follow = vscode.Disposable.from(
      vscode.window.onDidChangeTextEditorSelection(({ textEditor }) => this.turnTo(textEditor)),
      vscode.window.onDidChangeActiveTextEditor((editor) => editor && this.turnTo(editor)),
    );
  }

  /** @param hop shows this hop; otherwise the one at the caret, or the design */
  async open(hop?: string): Promise<void> {
    const editor = designEditor();
    const uri = editor?.document.uri.toString() ?? this.client.designInFront();
    if (uri === undefined) {
      await vscode.window.showInformationMessage(vscode.l10n.t("Open a .hop file to see its report."));
      return;
    }
    if (typeof hop === "string") this.turnToHop(uri, hop);
    else this.wanted = editor ? atCaret(editor) : { uri };
    this.panel ??= this.createPanel();
    this.panel.reveal(undefined, true);
    await this.refresh();
  }

  refreshSoon(): void {
    if (!this.panel) return;
    clearTimeout(this.timer);
    this.timer = setTimeout(() => void this.refresh(), SETTLE_MS);
  }

  private turnTo(editor: vscode.TextEditor): void {
    if (!this.panel || editor.document.languageId !== LANGUAGE) return;
    if (!vscode.workspace.getConfiguration(LANGUAGE).get("report.followCaret", true)) return;
    this.wanted = atCaret(editor);
    this.refreshSoon();
  }

  /** By its name, wherever the caret is. */
  private turnToHop(uri: string, hop: string): void {
    this.wanted = { uri, hop };
    this.caretAt = undefined;
  }

  dispose(): void {
    clearTimeout(this.timer);
    this.follow.dispose();
    this.panel?.dispose();
    this.pointed.dispose();
  }

  private async refresh(): Promise<void> {
    const asked = this.wanted;
    if (!this.panel || !asked) return;
    const answer = await this.client.report(asked).catch((error: unknown) => {
      return vscode.l10n.t("The report could not be made: {0}", String(error));
    });
    // While the server worked the caret may have moved on or the panel been closed.
    if (!this.panel || asked !== this.wanted) return;
    if (answer === undefined || typeof answer === "string") {
      const nothing = vscode.l10n.t("There is nothing to report on yet: this file belongs to no design.");
      await this.panel.webview.postMessage({ notice: answer ?? nothing });
      return;
    }
    const { hop, site, entry, html, at } = answer;
    // From here on the subject is known by its name, wherever edits move its lines.
    if (hop !== undefined) this.wanted = { uri: asked.uri, hop };
    else if (site !== undefined) this.wanted = { uri: asked.uri, site };
    else if (entry !== undefined) this.wanted = { uri: asked.uri, entry };
    this.panel.title = answer.title;
    const subject = hop !== undefined ? `hop ${hop}` : site !== undefined ? `site ${site}` : entry;
    // Asked by name, the answer knows of no caret: what is marked stays so.
    if (asked.line !== undefined) this.caretAt = at;
    await this.panel.webview.postMessage({ subject, html, at: this.caretAt ?? null });
  }

  private createPanel(): vscode.WebviewPanel {
    const media = vscode.Uri.joinPath(this.extensionUri, "extension", "media");
    const panel = vscode.window.createWebviewPanel(
      "hopwright.report",
      vscode.l10n.t("Report"),
      { viewColumn: vscode.ViewColumn.Beside, preserveFocus: true },
      { enableScripts: true, enableFindWidget: true, localResourceRoots: [media] },
    );
    panel.iconPath = vscode.Uri.joinPath(media, "file.svg");
    panel.webview.html = reportShell(panel.webview, media);
    panel.webview.onDidReceiveMessage((message: FromPage) => {
      const uri = this.wanted?.uri;
      if (message.point !== undefined && uri !== undefined) void this.pointed.show(uri, message.point);
      else if (message.reveal !== undefined && uri !== undefined)
        void this.pointed.reveal(uri, message.reveal);
      else {
        if (message.hop !== undefined && uri !== undefined) this.turnToHop(uri, message.hop);
        void this.refresh();
      }
    });
    panel.onDidDispose(() => {
      this.panel = undefined;
      this.pointed.clear();
    });
    return panel;
  }
}

/** What the page tells: it is there, a link was followed, a box is pointed at (null: none any more) or chosen. */
interface FromPage {
  readonly ready?: true;
  readonly hop?: string;
  readonly point?: string | null;
  readonly reveal?: string;
}

function atCaret(editor: vscode.TextEditor): ReportParams {
  const { line, character } = editor.selection.active;
  return { uri: editor.document.uri.toString(), line, character };
}

/** The .hop editor in front, or one that is visible beside the report itself. */
function designEditor(): vscode.TextEditor | undefined {
  const isDesign = (editor: vscode.TextEditor | undefined) => editor?.document.languageId === LANGUAGE;
  const active = vscode.window.activeTextEditor;
  return isDesign(active) ? active : vscode.window.visibleTextEditors.find(isDesign);
}
