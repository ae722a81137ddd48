/** Licences: of a hop what is granted beside what the design has, of a network a row each with the days that are left. */

import { daysBetween } from "../../design/day.js";
import { type Licence, NOTICE_DAYS } from "../../design/licence.js";
import { daysLeft, lastsWords, licensedRows } from "../../licence/figures.js";
import type { Held, HeldHop } from "../../licence/held.js";
import { onTheAir } from "../../licence/words.js";
import type { Block, Inline, MarkedText, Section, TableRow } from "../document/document.js";

export interface HopLicences {
  readonly held: HeldHop;
  /** ISO date. */
  readonly today: string;
}

/** Nothing where the hop has none and is asked for none. */
export function hopLicenceSection(of: HopLicences | undefined): Section[] {
  if (of === undefined) return [];
  const { held, today } = of;
  const licensed = held.held.filter(({ licence }) => licence !== undefined);
  const open = held.held.filter(({ licence }) => licence === undefined);
  const unused = [...held.spare, ...held.notFromEnds];
  if (licensed.length === 0 && unused.length === 0) return [];
  const blocks: Block[] = licensed.map((one) => licenceBlock(one, today));
  if (open.length > 0)
    blocks.push({
      type: "paragraph",
      text: `Without a licence: ${open.map(({ sent }) => `${sent.site} ${onTheAir(sent)}`).join("; ")}.`,
    });
  if (unused.length > 0)
    blocks.push({
      type: "paragraph",
      text: `For nothing that is sent: ${unused.map(({ number, site }) => `${number} from ${site}`).join("; ")}.`,
    });
  return [{ id: "licences", title: "Licences", blocks }];
}

function licenceBlock(one: Held, today: string): Block {
  const { licence, sent } = one;
  const caption = `${licence!.number}: ${sent.site} to ${sent.farSite}, ${lastsWords(licence!, today)}`;
  const granted = licensedRows(one);
  if (granted.length === 0) return { type: "paragraph", text: `${caption}. It states no figure.` };
  return {
    type: "table",
    caption,
    columns: [{ title: "" }, { title: "Granted" }, { title: "Design" }, { title: "" }],
    rows: granted.map(({ figure, granted: told, is, departs }): TableRow => {
      const mark: Inline = departs ? { text: "departs", mark: "error" } : is === undefined ? "" : "held";
      return { cells: [{ text: figure, mark: "quiet" }, told, is ?? "–", mark] };
    }),
  };
}

export interface NetworkLicence {
  readonly licence: Licence;
  /** Undefined: it is for nothing that is sent. */
  readonly held?: Held;
  /** Page of its hop, where there is one. */
  readonly page?: string;
}

/** A row each, those that end first before the others. @param noticeDays undefined: the usual */
export function networkLicenceSection(
  licences: readonly NetworkLicence[],
  today: string,
  noticeDays = NOTICE_DAYS,
): Section[] {
  if (licences.length === 0) return [];
  const last = ({ licence }: NetworkLicence) => licence.until ?? "~";
  const rows = licences
    .toSorted((a, b) => (last(a) < last(b) ? -1 : last(a) > last(b) ? 1 : 0))
    .map((one): TableRow => {
      const { licence, held, page } = one;
      return {
        find: `${licence.number} ${licence.hop} ${licence.site}`,
        cells: [
          licence.number,
          page === undefined ? licence.hop : { text: licence.hop, to: { page } },
          licence.site,
          onTheAir(held?.sent ?? licence),
          licence.until ?? "–",
          left(licence, today, noticeDays),
          standing(held),
        ],
      };
    });
  const columns = ["Licence", "Hop", "From", "Transmission", "Last day", "Left", "Design"];
  return [
    {
      id: "licences",
      title: "Licences",
      blocks: [
        { type: "table", searched: true, columns: columns.map((title) => ({ title })), rows },
        { type: "paragraph", text: `Days are counted from ${today}.` },
      ],
    },
  ];
}

function left({ until }: Licence, today: string, noticeDays: number): Inline {
  if (until === undefined) return "without an end";
  const days = daysBetween(today, until);
  if (days < 0) return { text: "ended", mark: "error" };
  return days <= noticeDays ? { text: daysLeft(until, today), mark: "warning" } : daysLeft(until, today);
}

function standing(held: Held | undefined): Inline {
  if (held === undefined) return { text: "not sent", mark: "warning" };
  if (held.departures.length === 0) return "held";
  const told: MarkedText = { text: "departs", mark: "error" };
  return [told, `: ${held.departures.map(({ figure }) => figure).join(", ")}`];
}
