/** Where the text states what is pointed at in the report: marked while it is, and gone to when it is chosen. */
import * as vscode from "vscode";
import { type HopwrightClient, LANGUAGE } from "./client.js";

export class PointedPlace implements vscode.Disposable {
  private readonly look = vscode.window.createTextEditorDecorationType({
    isWholeLine: true,
    backgroundColor: new vscode.ThemeColor("editor.rangeHighlightBackground"),
    // Not by colour alone.
    border: "1px solid",
    borderColor: new vscode.ThemeColor("focusBorder"),
    overviewRulerColor: new vscode.ThemeColor("focusBorder"),
  });
  /** What is pointed at now: an answer about anything else comes too late. */
  private at: string | null = null;

  constructor(private readonly client: HopwrightClient) {}

  /** @param at address in the report of that document's design; null: nothing any more */
  async show(uri: string, at: string | null): Promise<void> {
    this.at = at;
    const place = at === null ? undefined : await this.placeOf(uri, at);
    if (this.at !== at) return;
    for (const editor of vscode.window.visibleTextEditors) {
      const isThere = place && editor.document.uri.toString() === place.uri.toString();
      editor.setDecorations(this.look, isThere ? [place.range] : []);
    }
  }

  async reveal(uri: string, at: string): Promise<void> {
    const place = await this.placeOf(uri, at);
    if (!place) return;
    const { visibleTextEditors } = vscode.window;
    const column = (
      visibleTextEditors.find(({ document }) => document.uri.toString() === place.uri.toString()) ??
      visibleTextEditors.find(({ document }) => document.languageId === LANGUAGE)
    )?.viewColumn;
    const { start } = place.range;
    await vscode.window.showTextDocument(place.uri, {
      viewColumn: column ?? vscode.ViewColumn.One,
      selection: new vscode.Range(start, start),
    });
  }

  clear(): void {
    this.at = null;
    for (const editor of vscode.window.visibleTextEditors) editor.setDecorations(this.look, []);
  }

  dispose(): void {
    this.look.dispose();
  }

  private async placeOf(
    uri: string,
    at: string,
  ): Promise<{ readonly uri: vscode.Uri; readonly range: vscode.Range } | undefined> {
    const place = await this.client.place({ uri, at }).catch(() => undefined);
    if (!place) return undefined;
    const { start, end } = place.range;
    return {
      uri: vscode.Uri.parse(place.uri),
      range: new vscode.Range(start.line, start.character, end.line, end.character),
    };
  }
}
