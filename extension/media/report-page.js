// Runs inside the report's page: puts each new report in place of the last one, keeps the reader's place, and joins the
// boxes of its drawings with the text: whoever points at one, or walks to it by keys, sees its line there and the reverse.
(() => {
  const editor = acquireVsCodeApi();
  const { nonce } = document.currentScript;
  let subject;
  /** The report that is shown, as it came. */
  let shown;
  /** Address of what the caret is at. */
  let atCaret;
  let pointed = null;

  window.addEventListener("message", ({ data }) => {
    if (data.html === undefined) {
      document.body.replaceChildren(data.notice ?? "");
      shown = undefined;
    } else if (data.html !== shown) show(data.html);
    const turned = data.subject !== subject;
    if (turned) window.scrollTo(0, 0);
    subject = data.subject;
    const moved = turned || data.at !== atCaret;
    atCaret = data.at;
    markCaret(moved);
  });

  document.addEventListener("click", (event) => {
    // The overview's links to hop pages have the hop's name for text; the editor is asked for that hop instead.
    const link = event.target.closest("a[href^='hops/']");
    if (link) {
      event.preventDefault();
      editor.postMessage({ hop: link.textContent.trim() });
      return;
    }
    // Who drags over words wants to copy them.
    const at = getSelection().isCollapsed ? statedAt(event) : null;
    if (at !== null) editor.postMessage({ reveal: at });
  });

  document.addEventListener("keydown", (event) => {
    const at = event.target.dataset?.at;
    if (at === undefined || (event.key !== "Enter" && event.key !== " ")) return;
    event.preventDefault();
    editor.postMessage({ reveal: at });
  });

  document.addEventListener("pointermove", (event) => point(statedAt(event)));
  document.documentElement.addEventListener("pointerleave", () => point(null));
  document.addEventListener("focusin", ({ target }) => point(target.dataset?.at ?? null));
  document.addEventListener("focusout", () => point(null));

  new MutationObserver(followTheme).observe(document.body, { attributeFilter: ["data-vscode-theme-kind"] });
  editor.postMessage({ ready: true });

  function show(html) {
    shown = html;
    const focused = placeOfFocus();
    // The page's policy lets in no style without this mark, not even into a document that is only parsed.
    const marked = html.replaceAll("<style>", `<style nonce="${nonce}">`);
    const report = new DOMParser().parseFromString(marked, "text/html");
    for (const old of document.querySelectorAll("style[data-report]")) old.remove();
    for (const style of report.querySelectorAll("style")) {
      style.dataset.report = "";
      document.head.append(style);
    }
    document.body.replaceChildren(...report.body.childNodes);
    for (const drawing of document.querySelectorAll("svg.system")) makeWalkable(drawing);
    followTheme();
    point(null);
    if (focused) sameBoxes(focused.at)[focused.index]?.focus({ preventScroll: true });
  }

  /** Boxes become buttons in the order in which they are drawn, which is that of the signal, named by the words in them. */
  function makeWalkable(drawing) {
    const boxes = [...drawing.querySelectorAll("rect[data-at]")].map((box) => {
      const [x, y, width, height] = ["x", "y", "width", "height"].map((name) =>
        Number(box.getAttribute(name)),
      );
      return { box, x, y, width, height, words: [] };
    });
    if (boxes.length === 0) return;
    for (const text of drawing.querySelectorAll("text")) {
      const [x, y] = ["x", "y"].map((name) => Number(text.getAttribute(name)));
      const around = boxes.filter(
        (one) => one.x <= x && x <= one.x + one.width && one.y <= y && y <= one.y + one.height,
      );
      const inmost = around.sort((a, b) => a.width * a.height - b.width * b.height)[0];
      if (!inmost) continue;
      inmost.words.push(text.querySelector("title")?.textContent ?? text.textContent);
      // The button says it.
      text.setAttribute("aria-hidden", "true");
    }
    // An image is one thing to a screen reader, whatever is in it. Its name stays.
    drawing.setAttribute("role", "group");
    for (const { box, words } of boxes) {
      box.setAttribute("tabindex", "0");
      box.setAttribute("role", "button");
      const title = box.querySelector("title")?.textContent;
      box.setAttribute("aria-label", words.length > 0 ? words.join(", ") : (title ?? box.dataset.at));
    }
  }

  function sameBoxes(at) {
    return [...document.querySelectorAll("[data-at]")].filter((one) => one.dataset.at === at);
  }

  function placeOfFocus() {
    const { activeElement } = document;
    const at = activeElement?.dataset.at;
    return at === undefined ? undefined : { at, index: sameBoxes(at).indexOf(activeElement) };
  }

  /** Words lie on boxes, and boxes in each other: the inmost that states something counts. */
  function statedAt({ clientX, clientY }) {
    const under = document.elementsFromPoint(clientX, clientY);
    return under.find((one) => one.dataset.at !== undefined)?.dataset.at ?? null;
  }

  function point(at) {
    if (at === pointed) return;
    pointed = at;
    for (const old of document.querySelectorAll(".pointed")) old.classList.remove("pointed");
    if (at !== null) for (const one of sameBoxes(at)) one.classList.add("pointed");
    editor.postMessage({ point: at });
  }

  /** @param moved the caret came here: its drawing is brought into view if it is not */
  function markCaret(moved) {
    for (const old of document.querySelectorAll(".at-caret")) {
      old.classList.remove("at-caret");
      old.removeAttribute("aria-current");
    }
    if (!atCaret) return;
    const marked = sameBoxes(atCaret);
    for (const one of marked) {
      one.classList.add("at-caret");
      one.setAttribute("aria-current", "true");
    }
    if (!moved) return;
    // Of the two widths of a drawing one is hidden. What a rack holds has its own face further down: the last counts.
    const seen = marked.filter((one) => one.getClientRects().length > 0);
    const drawing = seen.at(-1)?.closest("figure");
    const inLast = seen.filter((one) => one.closest("figure") === drawing);
    if (inLast.length === 0 || inLast.some(isInView)) return;
    const tall = inLast[0].getBoundingClientRect().height > window.innerHeight;
    inLast[0].scrollIntoView({ block: tall ? "start" : "center", inline: "nearest" });
  }

  function isInView(one) {
    const { top, bottom, height, left, right } = one.getBoundingClientRect();
    const inside = Math.min(bottom, window.innerHeight) - Math.max(top, 0);
    return inside >= Math.min(height, window.innerHeight) / 2 && left < window.innerWidth && right > 0;
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
