/** Parts and licences that a change asks for, as sections of a page. */
import type { Section } from "../../report/document/document.js";
import type { LicenceChange } from "../licences.js";
import type { OrderChange } from "../orders.js";

export function ordersSection(
  orders: readonly OrderChange[],
  title = "Parts to order and to return",
): Section[] {
  if (orders.length === 0) return [];
  const amount = (count: number, unit: string) => `${Math.abs(count)}${unit === "m" ? " m" : ""}`;
  const rows = orders.map(({ part, count, unit, sites }) => {
    const shown = sites.length > 5 ? sites.slice(0, 4) : sites;
    const where = shown.map(({ site, count }) => `${site} ${count > 0 ? "+" : "-"}${amount(count, unit)}`);
    const more = sites.length > shown.length ? `, and ${sites.length - shown.length} sites more` : "";
    const action = count > 0 ? "order" : count < 0 ? "return" : "move";
    return { cells: [action, count === 0 ? "" : amount(count, unit), part, `${where.join(", ")}${more}`] };
  });
  const columns = [
    { title: "" },
    { title: "Count", align: "right" as const },
    { title: "Part" },
    { title: "Sites" },
  ];
  return [{ id: "parts", title, blocks: [{ type: "table", columns, rows }] }];
}

export function licenceSection(licences: readonly LicenceChange[], title = "Licences"): Section[] {
  if (licences.length === 0) return [];
  const rows = licences.map(({ hop, site, action, transmission, licence, figures }) => ({
    cells: [
      // A design need not state its licences.
      action === "amend" && licence === undefined ? "amend, if licensed" : action,
      `${hop}, transmitted at ${site}`,
      licence === undefined ? transmission : `${transmission}; licence ${licence}`,
      figures.map(({ label, was, is }) => `${label} ${was ?? "unknown"} → ${is ?? "unknown"}`).join("; "),
    ],
  }));
  const columns = [
    { title: "" },
    { title: "Hop" },
    { title: "Transmission" },
    // Only what is amended has such.
    ...(licences.some(({ figures }) => figures.length > 0) ? [{ title: "Changes" }] : []),
  ];
  const shown = rows.map(({ cells }) => ({ cells: cells.slice(0, columns.length) }));
  return [{ id: "licences", title, blocks: [{ type: "table", columns, rows: shown }] }];
}
