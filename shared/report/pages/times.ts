/** Which time the page of a hop shows, where not all of it stands at all times. */
import type { Inline, Section } from "../document/document.js";

export interface HopTimes {
  /** In words: `on 2027-03-01`. */
  readonly shows: string;
  /** Statements that hold for a time, as written, with the site that they stand at. */
  readonly parts: readonly { readonly site?: string; readonly text: string }[];
}

export function timesSection(times: HopTimes | undefined): Section[] {
  if (times === undefined) return [];
  const items = times.parts.map(
    ({ site, text }): Inline => [site === undefined ? "" : `${site}: `, { text, mark: "code" }],
  );
  return [
    {
      id: "times",
      title: "When it stands",
      blocks: [
        {
          type: "paragraph",
          text: `This page shows the hop ${times.shows}. A finding that holds at another time only says when.`,
        },
        ...(items.length > 0 ? [{ type: "list", items } as const] : []),
      ],
    },
  ];
}
