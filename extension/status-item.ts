/** The item in the status bar: which design, what was found in it, and whether work is under way. */
import * as vscode from "vscode";
import type { DesignStatus, StatusParams } from "../server/lsp/protocol.js";
import { LANGUAGE } from "./client.js";

const COMMANDS = ["hopwright.check", "hopwright.openReport", "hopwright.compare", "hopwright.restartServer"];

export class StatusItem implements vscode.Disposable {
  private readonly item = vscode.window.createStatusBarItem(
    "hopwright.status",
    vscode.StatusBarAlignment.Left,
    10,
  );
  private readonly follow: vscode.Disposable;
  private last: StatusParams | undefined;

  constructor() {
    this.item.name = "Hopwright";
    this.follow = vscode.window.onDidChangeActiveTextEditor(() => this.last && this.show(this.last));
  }

  showStarting(): void {
    if (this.last) return;
    this.item.text = "$(loading~spin) Hopwright";
    this.item.tooltip = vscode.l10n.t("The Hopwright server is starting.");
    this.item.show();
  }

  show(status: StatusParams): void {
    this.last = status;
    const design = designInFront(status.designs);
    const icon = status.waiting > 0 ? "$(loading~spin)" : "$(broadcast)";
    const counts = design ? `$(error) ${design.errors} $(warning) ${design.warnings}` : "";
    this.item.text = `${icon} ${design ? shortly(design) : "Hopwright"} ${counts}`.trimEnd();
    this.item.show();
    this.item.tooltip = tooltip(design, status.waiting);
    this.item.accessibilityInformation = { label: tooltipLines(design, status.waiting).join(" ") };
    this.item.command = "hopwright.check";
    this.item.backgroundColor = undefined;
  }

  showStopped(): void {
    this.last = undefined;
    this.item.text = "$(broadcast) Hopwright";
    this.item.tooltip = vscode.l10n.t("The Hopwright server is not running. Click to start it.");
    this.item.command = "hopwright.restartServer";
    this.item.backgroundColor = new vscode.ThemeColor("statusBarItem.warningBackground");
  }

  dispose(): void {
    this.follow.dispose();
    this.item.dispose();
  }
}

/** The design that judges the document in front; while none is, the first one. */
function designInFront(designs: readonly DesignStatus[]): DesignStatus | undefined {
  const front = vscode.window.activeTextEditor?.document;
  if (front?.languageId !== LANGUAGE) return designs[0];
  const uri = front.uri.toString();
  const judging = designs.filter(({ documents }) =>
    documents.some((document) => vscode.Uri.parse(document).toString() === uri),
  );
  return judging[0] ?? designs[0];
}

/** The title, and what else than an opened folder it stands for. */
function shortly({ title, standing }: DesignStatus): string {
  switch (standing) {
    case "above":
      return vscode.l10n.t("{0} (above)", title);
    case "alone":
      return vscode.l10n.t("{0} (by itself)", title);
    case "copy":
      return vscode.l10n.t("copy of {0}", title);
    default:
      return title;
  }
}

function standingLines({ standing, uri }: DesignStatus): string[] {
  switch (standing) {
    case "above":
      return [
        vscode.l10n.t(
          "Judged with the network found above the document, in {0}.",
          vscode.Uri.parse(uri).fsPath,
        ),
      ];
    case "alone":
      return [vscode.l10n.t("No network was found above this document: it is judged by itself.")];
    case "copy":
      return [
        vscode.l10n.t(
          "This document is not saved: it is judged with a copy of the design, which it does not change.",
        ),
      ];
    default:
      return [];
  }
}

function tooltip(design: DesignStatus | undefined, waiting: number): vscode.MarkdownString {
  const text = new vscode.MarkdownString(undefined, true);
  text.isTrusted = { enabledCommands: COMMANDS };
  for (const line of tooltipLines(design, waiting)) text.appendText(line).appendMarkdown("\n\n");
  const link = (title: string, command: string) => `[${title}](command:hopwright.${command})`;
  return text.appendMarkdown(
    [
      link(vscode.l10n.t("Check design"), "check"),
      link(vscode.l10n.t("Open report"), "openReport"),
      link(vscode.l10n.t("Compare with revision"), "compare"),
      link(vscode.l10n.t("Restart server"), "restartServer"),
    ].join(" · "),
  );
}

function tooltipLines(design: DesignStatus | undefined, waiting: number): string[] {
  if (!design) return [vscode.l10n.t("No design is open.")];
  const { title, hops, errors, warnings, infos } = design;
  return [
    title,
    ...standingLines(design),
    vscode.l10n.t("{0} hops, {1} errors, {2} warnings, {3} remarks", hops, errors, warnings, infos),
    ...(vscode.workspace.isTrusted
      ? []
      : [vscode.l10n.t("The workspace is not trusted: git is not started, and nothing is compared.")]),
    ...(waiting > 0 ? [vscode.l10n.t("{0} hops wait for evaluation", waiting)] : []),
  ];
}
