/** Asks for a revision: those that there are, and whatever else is typed. */
import * as vscode from "vscode";
import type { RevisionsResult } from "../server/lsp/protocol.js";

const SEPARATOR = vscode.QuickPickItemKind.Separator;

type Revisions = NonNullable<RevisionsResult["revisions"]>;

/** @param last what was compared with before; it is offered first */
export function pickRevision(revisions: Revisions, last: string | undefined): Promise<string | undefined> {
  const pick = vscode.window.createQuickPick();
  pick.title = vscode.l10n.t("Compare the design with a revision");
  pick.placeholder = vscode.l10n.t("A branch, tag or commit, or anything else that git knows");
  pick.matchOnDescription = true;
  pick.matchOnDetail = true;
  const listed = itemsOf(revisions, last ?? "HEAD");
  pick.items = listed;
  // What is typed is taken too, unless it is in the list.
  pick.onDidChangeValue((value) => {
    const typed = value.trim();
    const exact = listed.find(({ label, kind }) => label === typed && kind !== SEPARATOR);
    const first = exact ?? { label: typed, description: vscode.l10n.t("as typed") };
    pick.items = typed === "" ? listed : [first, ...listed.filter((item) => item !== exact)];
  });
  return new Promise((resolve) => {
    pick.onDidAccept(() => {
      resolve(pick.selectedItems[0]?.label ?? (pick.value.trim() || undefined));
      pick.hide();
    });
    pick.onDidHide(() => {
      resolve(undefined);
      pick.dispose();
    });
    pick.show();
  });
}

function itemsOf(revisions: Revisions, first: string): vscode.QuickPickItem[] {
  const items: vscode.QuickPickItem[] = [
    { label: first, description: vscode.l10n.t("the last commit or choice") },
  ];
  let kind: string | undefined;
  for (const revision of revisions) {
    if (revision.kind !== kind) {
      kind = revision.kind;
      items.push({ label: kind, kind: SEPARATOR });
    }
    items.push({ label: revision.name, detail: revision.detail });
  }
  return items;
}
