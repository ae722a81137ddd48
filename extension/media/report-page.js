// Runs inside the report's page: puts each new report in place of the last one and keeps the reader's place.
(() => {
  const editor = acquireVsCodeApi();
  const page = document.getElementById("report");
  const nonce = document.currentScript.nonce;

  window.addEventListener("message", ({ data }) => {
    if (data.html !== undefined) show(data.html);
    else page.textContent = data.notice ?? "";
  });

  // Links between pages of a report ask the editor for that hop; links within a page work by themselves.
  document.addEventListener("click", (event) => {
    const hop = event.target.closest("a[data-hop]")?.dataset.hop;
    if (hop === undefined) return;
    event.preventDefault();
    editor.postMessage({ hop });
  });

  new MutationObserver(followTheme).observe(document.body, { attributeFilter: ["data-vscode-theme-kind"] });
  editor.postMessage({ ready: true });

  function show(html) {
    const report = new DOMParser().parseFromString(html, "text/html");
    for (const old of document.querySelectorAll("style[data-report]")) old.remove();
    for (const { textContent } of report.querySelectorAll("style")) addStyle(textContent);
    for (const style of report.body.querySelectorAll("style")) style.remove();
    page.replaceChildren(...report.body.childNodes);
    followTheme();
  }

  function addStyle(text) {
    const style = document.createElement("style");
    style.nonce = nonce;
    style.dataset.report = "";
    style.textContent = text;
    document.head.append(style);
  }

  // A report chooses light or dark by the system; here the editor's theme decides, which may differ.
  function followTheme() {
    const dark = ["vscode-dark", "vscode-high-contrast"].includes(document.body.dataset.vscodeThemeKind);
    for (const sheet of document.styleSheets) {
      if (sheet.ownerNode.dataset?.report === undefined) continue;
      for (const rule of sheet.cssRules) {
        if (!(rule instanceof CSSMediaRule)) continue;
        rule.hopwrightScheme ??= /prefers-color-scheme:\s*(dark|light)/.exec(rule.media.mediaText)?.[1];
        if (rule.hopwrightScheme)
          rule.media.mediaText = (rule.hopwrightScheme === "dark") === dark ? "all" : "not all";
      }
    }
  }
})();
