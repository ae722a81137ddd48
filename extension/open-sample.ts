/** Copies the samples to a folder of the user's choice and opens the first lesson there. */
import * as vscode from "vscode";

const COPY_NAME = "hopwright-samples";

export async function openSample(extensionUri: vscode.Uri): Promise<void> {
  const opened = vscode.workspace.workspaceFolders?.[0];
  const [parent] =
    (await vscode.window.showOpenDialog({
      canSelectFiles: false,
      canSelectFolders: true,
      // Beside what is open, not in it: a design takes every file below its folder for its own.
      defaultUri: opened && vscode.Uri.joinPath(opened.uri, ".."),
      openLabel: vscode.l10n.t("Put the Samples Here"),
      title: vscode.l10n.t("A folder for a copy of the samples"),
    })) ?? [];
  if (!parent) return;
  const copy = vscode.Uri.joinPath(parent, COPY_NAME);
  // An earlier copy may hold the user's own changes: it is opened, never written over.
  if (!(await exists(copy))) {
    await vscode.workspace.fs.copy(vscode.Uri.joinPath(extensionUri, "samples"), copy);
  }
  await vscode.commands.executeCommand("vscode.openFolder", vscode.Uri.joinPath(copy, "learning"), {
    forceNewWindow: opened !== undefined,
  });
}

async function exists(uri: vscode.Uri): Promise<boolean> {
  try {
    await vscode.workspace.fs.stat(uri);
    return true;
  } catch {
    return false;
  }
}
