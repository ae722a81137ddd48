import type { Page } from "../document/document.js";

export interface ListedDesign {
  readonly title: string;
  readonly folder: string;
  readonly page: string;
  readonly counts: {
    readonly hops: number;
    readonly errors: number;
    readonly warnings: number;
    readonly accepted: number;
  };
}

/** The page above the overviews of several designs. */
export function listPage({
  name,
  rows,
}: {
  readonly name: string;
  readonly rows: readonly ListedDesign[];
}): Page {
  return {
    name,
    title: "Designs",
    keyFigures: [],
    sections: [
      {
        id: "designs",
        title: `${rows.length} designs in this folder`,
        blocks: [
          {
            type: "table",
            searched: true,
            columns: [
              { title: "Design" },
              { title: "Folder" },
              { title: "Hops", align: "right" },
              { title: "Errors", align: "right" },
              { title: "Warnings", align: "right" },
              { title: "Accepted", align: "right" },
            ],
            rows: rows.map(({ title, folder, page, counts: { hops, errors, warnings, accepted } }) => ({
              cells: [
                { text: title, to: { page } },
                { text: folder, mark: "code" },
                String(hops),
                errors > 0 ? { text: String(errors), mark: "error" } : "0",
                String(warnings),
                String(accepted),
              ],
            })),
          },
        ],
      },
    ],
    colophon: "Each design is computed by itself.",
  };
}
