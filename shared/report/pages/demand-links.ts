/** Ways from demands to the pages of what they pass. */
import type { Element } from "../../demands/failures.js";
import type { Route } from "../../demands/result.js";
import { elementWords } from "../../words/demands.js";
import type { Inline, Span } from "../document/document.js";

/** Page of a hop or site, where there is one. */
export type DemandsPageOf = (kind: "hop" | "site", name: string) => string | undefined;

export function linkedHop(hop: string, pageOf: DemandsPageOf): Span {
  const page = pageOf("hop", hop);
  return page === undefined ? hop : { text: hop, to: { page } };
}

export function linkedElement(element: Element, pageOf: DemandsPageOf): Inline {
  const { kind, name } = element;
  const page = kind === "card" ? undefined : pageOf(kind, name);
  return page === undefined ? elementWords(element) : [`${kind} `, { text: name, to: { page } }];
}

/** Every site in turn. */
export function linkedRoute({ sites }: Route, pageOf: DemandsPageOf): Span[] {
  return sites.flatMap((site, index): Span[] => {
    const page = pageOf("site", site);
    const shown = page === undefined ? site : { text: site, to: { page } };
    return index === 0 ? [shown] : [" > ", shown];
  });
}
