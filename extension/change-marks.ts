/** Marks in the margin of hops that changed since a revision; each kind has a shape of its own beside its colour. */
import * as vscode from "vscode";
import type { ChangedParams, ChangeMark } from "../server/lsp/protocol.js";

type Kind = ChangeMark["kind"];

const SHAPES: Readonly<
  Record<Kind, { readonly path: string; readonly colour: string; readonly ruler: string }>
> = {
  worse: { path: "M3 5h10l-5 7z", colour: "#c8493c", ruler: "editorGutter.deletedBackground" },
  better: { path: "M3 11h10l-5-7z", colour: "#3f9a66", ruler: "editorGutter.addedBackground" },
  changed: { path: "M8 3l5 5-5 5-5-5z", colour: "#4a83b5", ruler: "editorGutter.modifiedBackground" },
  added: { path: "M7 3h2v4h4v2H9v4H7V9H3V7h4z", colour: "#3f9a66", ruler: "editorGutter.addedBackground" },
};

export class ChangeMarks implements vscode.Disposable {
  private readonly types = new Map<Kind, vscode.TextEditorDecorationType>();
  private shown: ChangedParams = { files: [] };
  private readonly follow: vscode.Disposable;

  constructor() {
    for (const [kind, shape] of Object.entries(SHAPES)) this.types.set(kind as Kind, decoration(shape));
    this.follow = vscode.window.onDidChangeVisibleTextEditors(() => this.draw());
  }

  show(params: ChangedParams): void {
    this.shown = params;
    this.draw();
  }

  dispose(): void {
    this.follow.dispose();
    for (const type of this.types.values()) type.dispose();
  }

  private draw(): void {
    for (const editor of vscode.window.visibleTextEditors) {
      const uri = editor.document.uri.toString();
      const file = this.shown.files.find((one) => vscode.Uri.parse(one.uri).toString() === uri);
      for (const [kind, type] of this.types) {
        const marks = file?.marks.filter((mark) => mark.kind === kind) ?? [];
        editor.setDecorations(
          type,
          marks.map(({ fromLine, text }) => ({
            range: new vscode.Range(fromLine, 0, fromLine, 0),
            hoverMessage: new vscode.MarkdownString().appendText(text),
          })),
        );
      }
    }
  }
}

function decoration({ path, colour, ruler }: (typeof SHAPES)[Kind]): vscode.TextEditorDecorationType {
  const svg = `<svg xmlns="http://www.w3.org/2000/svg" viewBox="0 0 16 16"><path fill="${colour}" d="${path}"/></svg>`;
  return vscode.window.createTextEditorDecorationType({
    gutterIconPath: vscode.Uri.parse(`data:image/svg+xml;base64,${Buffer.from(svg).toString("base64")}`),
    gutterIconSize: "contain",
    overviewRulerColor: new vscode.ThemeColor(ruler),
    overviewRulerLane: vscode.OverviewRulerLane.Left,
    isWholeLine: true,
  });
}
