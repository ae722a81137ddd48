/** The page that holds a report in the editor. Nothing runs or loads in it but the one script of ours. */
import * as vscode from "vscode";

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
</head>
<body>
<script nonce="${nonce}" src="${script}"></script>
</body>
</html>`;
}
