/**
 * The one script of a page, on pages with a long table of names: it narrows the table to the rows that hold what is
 * typed, or what stands behind `#find=` in the address. It is let in by its hash alone, so that nothing else runs, and
 * a page without scripts is whole without it.
 */
export const FIND_SCRIPT = `
(() => {
  const table = document.querySelector("table[data-find]");
  const label = document.createElement("label");
  const field = document.createElement("input");
  label.className = "find";
  field.type = "search";
  label.append(table.dataset.find + " ", field);
  table.parentElement.before(label);
  const find = () => {
    const words = field.value.toLowerCase().split(/\\s+/);
    for (const row of table.tBodies[0].rows) {
      const text = (row.textContent + " " + (row.dataset.find || "")).toLowerCase();
      row.hidden = !words.every((word) => text.includes(word));
    }
  };
  field.addEventListener("input", find);
  field.value = new URLSearchParams(location.hash.slice(1)).get("find") || "";
  find();
})();
`;

/** Of the script above, as policies name it; a test holds the two together. */
export const FIND_HASH = "sha256-y6ia850dyyueWZp3+VAh2tsIjR0UtNFj/P5g6DpAIiw=";
