/**
 * The script of a table whose rows can be put in order by a column: each head becomes a button, for mouse, finger and
 * key. Let in by its hash alone; a page without scripts is whole without it, in the order of the text.
 */
export const SORT_SCRIPT = `
(() => {
  const keyOf = (row, at) => {
    const text = row.cells[at].textContent.trim();
    const figure = parseFloat(text.replace("\\u2212", "-").replace(",", "."));
    return /^[-\\u2212]?\\d/.test(text) ? figure : text === "\\u2013" ? null : text;
  };
  const compare = (a, b) =>
    typeof a === "number" && typeof b === "number" ? a - b : String(a).localeCompare(String(b), document.documentElement.lang);
  for (const table of document.querySelectorAll("table[data-sort]")) {
    const [body] = table.tBodies;
    const heads = [...table.tHead.rows[0].cells];
    heads.forEach((head, at) => {
      const button = document.createElement("button");
      button.type = "button";
      button.append(...head.childNodes);
      head.append(button);
      button.addEventListener("click", () => {
        const turned = head.getAttribute("aria-sort") === "ascending" ? -1 : 1;
        for (const other of heads) other.removeAttribute("aria-sort");
        head.setAttribute("aria-sort", turned === 1 ? "ascending" : "descending");
        const rows = [...body.rows].map((row) => ({ row, key: keyOf(row, at) }));
        const known = rows.filter(({ key }) => key !== null).sort((a, b) => turned * compare(a.key, b.key));
        const unknown = rows.filter(({ key }) => key === null);
        body.append(...[...known, ...unknown].map(({ row }) => row));
      });
    });
  }
})();
`;

/** Of the script above, as policies name it; a test holds the two together. */
export const SORT_HASH = "sha256-FlzWe2wXY53L4tSvnS7lTe9Fm81GkxLABGkEsp/dmok=";
