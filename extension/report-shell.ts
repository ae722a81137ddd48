/** The page that holds a report in the editor. Nothing runs or loads in it but the one script of ours. */
import * as vscode from "vscode";

/** Boxes that lead to the text: pointed at, reached by keys, and those of where the caret is; lines thicker, not only of another colour. */
const BOXES = `
svg.system [data-at]{pointer-events:all;cursor:pointer}
svg.system [data-at].pointed,svg.system [data-at]:focus-visible{stroke:var(--vscode-focusBorder,currentColor);stroke-width:2.6;outline:none}
svg.system [data-at].at-caret{stroke:var(--vscode-focusBorder,currentColor);stroke-width:4}
`;

export function reportShell(webview: vscode.Webview, media: vscode.Uri): string {
  const script = webview.asWebviewUri(vscode.Uri.joinPath(media, "report-page.js"));
  const nonce = crypto.randomUUID().replaceAll("-", "");
  const policy = `default-src 'none'; img-src data:; style-src 'nonce-${nonce}'; script-src 'nonce-${nonce}'`;
  return `<!DOCTYPE html>
<html lang="en">
<head>
<meta charset="utf-8">
<meta http-equiv="Content-Security-Policy" content="${policy}">
<title>Report</title>
<style nonce="${nonce}">${BOXES}</style>
</head>
<body>
<script nonce="${nonce}" src="${script}"></script>
</body>
</html>`;
}
