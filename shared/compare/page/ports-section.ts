/** Cables that are plugged in elsewhere, as a section of a page. */
import type { Section } from "../../report/document/document.js";
import type { PortMove } from "../ports.js";

export function portsSection(
  ports: readonly PortMove[],
  title = "Cables that are plugged in elsewhere",
): Section[] {
  if (ports.length === 0) return [];
  const rows = ports.map(({ site, hop, branch, was, is, stated }) => ({
    cells: [site, `${hop}, ${branch}`, was, is, stated ? "stated" : "proposed"],
  }));
  const columns = ["Site", "Unit", "Port before", "Port now", ""].map((title) => ({ title }));
  return [
    {
      id: "ports",
      title,
      blocks: [
        { type: "table", columns, rows },
        {
          type: "paragraph",
          text: "Labels and sheets that are printed no longer say so. A port that is stated at its end of the hop stays.",
        },
      ],
    },
  ];
}
