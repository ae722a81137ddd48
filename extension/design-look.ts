/** Whether there is a design to judge before any is opened: a look at each opened folder and its direct subfolders. */
import * as vscode from "vscode";

/** A folder with more subfolders than this holds all sorts of things; a design in it starts the server when opened. */
const MOST_SUBFOLDERS = 200;

export async function designIsNear(): Promise<boolean> {
  const folders = vscode.workspace.workspaceFolders ?? [];
  for (const { uri } of folders) if (uri.scheme === "file" && (await holdsDesign(uri))) return true;
  return false;
}

async function holdsDesign(folder: vscode.Uri): Promise<boolean> {
  const entries = await listed(folder);
  if (entries.some(isDesignFile)) return true;
  const inner = entries.filter(([name, type]) => type === vscode.FileType.Directory && !isPassedOver(name));
  for (const [name] of inner.slice(0, MOST_SUBFOLDERS))
    if ((await listed(vscode.Uri.joinPath(folder, name))).some(isDesignFile)) return true;
  return false;
}

async function listed(folder: vscode.Uri): Promise<readonly [string, vscode.FileType][]> {
  try {
    return await vscode.workspace.fs.readDirectory(folder);
  } catch {
    // A folder that cannot be read has no design that could be judged.
    return [];
  }
}

function isDesignFile([name, type]: [string, vscode.FileType]): boolean {
  return name.endsWith(".hop") && (type & vscode.FileType.File) !== 0;
}

function isPassedOver(name: string): boolean {
  return name.startsWith(".") || name === "node_modules";
}
