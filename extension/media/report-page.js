// Runs inside the report's page: puts each new report in place of the last one and keeps the reader's place.
(() => {
  const editor = acquireVsCodeApi();
  const { nonce } = document.currentScript;
  let subject;

  window.addEventListener("message", ({ data }) => {
    if (data.html === undefined) document.body.replaceChildren(data.notice ?? "");
    else show(data.html);
    if (data.subject !== subject) window.scrollTo(0, 0);
    subject = data.subject;
  });

  // The overview's links to hop pages have the hop's name for text; the editor is asked for that hop instead.
  document.addEventListener("click", (event) => {
    const link = event.target.closest("a[href^='hops/']");
    if (!link) return;
    event.preventDefault();
    editor.postMessage({ hop: link.textContent.trim() });
  });

  new MutationObserver(followTheme).observe(document.body, { attributeFilter: ["data-vscode-theme-kind"] });
  editor.postMessage({ ready: true });

  function show(html) {
    // The page's policy lets in no style without this mark, not even into a document that is only parsed.
    const marked = html.replaceAll("<style>", `<style nonce="${nonce}">`);
    const report = new DOMParser().parseFromString(marked, "text/html");
    for (const old of document.querySelectorAll("style[data-report]")) old.remove();
    for (const style of report.querySelectorAll("style")) {
      style.dataset.report = "";
      document.head.append(style);
    }
    document.body.replaceChildren(...report.body.childNodes);
    followTheme();
  }

  // A report chooses light or dark by the system; here the editor's theme decides, which may differ.
  function followTheme() {
    const dark = ["vscode-dark", "vscode-high-contrast"].includes(document.body.dataset.vscodeThemeKind);
    for (const style of document.querySelectorAll("style[data-report]")) {
      for (const rule of style.sheet.cssRules) {
        if (!(rule instanceof CSSMediaRule)) continue;
        rule.scheme ??= /prefers-color-scheme:\s*(dark|light)/.exec(rule.media.mediaText)?.[1];
        if (rule.scheme) rule.media.mediaText = (rule.scheme === "dark") === dark ? "screen" : "not all";
      }
    }
  }
})();
