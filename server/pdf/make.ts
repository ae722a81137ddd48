/**
 * Lays a page out and writes it as a PDF. A bundle of its own (`dist/pdf.cjs`), loaded when somebody asks for one:
 * nothing else pays for it. Nothing is fetched, no file is read but the two of the font, and the same page is the same
 * bytes.
 */
import pdfmake from "pdfmake";
import type { Page } from "../../shared/report/document/document.js";
import { PRINT } from "../../shared/report/document/palette.js";
import { pdfDocument } from "../../shared/report/document/pdf/definition.js";
import type { PdfDocument } from "../../shared/report/document/pdf/nodes.js";
import { signsOf } from "../../shared/report/document/pdf/signs.js";
import { tightened } from "../../shared/report/document/pdf/tightened.js";
import { FONT_FILES, hasSign, measure } from "./fonts.js";
import { whyNotShown } from "./pictures.js";

export interface MadePdf {
  readonly bytes: Uint8Array;
  /** Signs that the font lacks: they are seen as boxes. */
  readonly missing: readonly string[];
  /** Words of a picture that cannot be read: they stand in its place. */
  readonly unread?: string;
  /** One clause: why that picture cannot be read. */
  readonly unreadReason?: string;
}

const FAMILY = "DejaVu";
const { normal, bold } = FONT_FILES;
pdfmake.setFonts({ [FAMILY]: { normal, bold, italics: normal, bolditalics: bold } });
pdfmake.setUrlAccessPolicy(() => false);
pdfmake.setLocalAccessPolicy((path) => path === normal || path === bold);

/** @param at of a line, from 0 above the first row */
type LineWidth = (at: number, node: { readonly table: { readonly body: readonly unknown[] } }) => number;

const LAST = (at: number, widths: number): boolean => at === widths;

function layout(
  horizontal: LineWidth,
  vertical: number,
  padding: { readonly x: number; readonly y: number },
) {
  return {
    hLineWidth: horizontal,
    vLineWidth: () => vertical,
    hLineColor: (at: number) => (at === 1 ? PRINT.quiet : PRINT.rule),
    vLineColor: () => PRINT.quiet,
    paddingLeft: (at: number) => (at === 0 && padding.x < 6 ? 0 : padding.x),
    paddingRight: (at: number, { table }: { table: { widths: readonly unknown[] } }) =>
      LAST(at, table.widths.length - 1) && padding.x < 6 ? 0 : padding.x,
    paddingTop: () => padding.y,
    paddingBottom: () => padding.y,
  };
}

pdfmake.setTableLayouts({
  rows: layout((at) => (at === 0 ? 0 : 0.5), 0, { x: 4, y: 1.3 }),
  // Room for a hand, not for a printer's types.
  boxes: layout(() => 0.6, 0.6, { x: 4, y: 2.3 }),
  frame: {
    ...layout(() => 1.2, 1.2, { x: 6, y: 4 }),
    hLineColor: () => PRINT.ink,
    vLineColor: () => PRINT.ink,
  },
  none: layout(() => 0, 0, { x: 4, y: 0 }),
});

/** Of a document without one, so that the same page is the same bytes. */
const NO_DAY = new Date(0);

/** @param day ISO date */
function dayOf(day: string | undefined): Date {
  const date = day === undefined ? NO_DAY : new Date(`${day}T00:00:00Z`);
  return Number.isNaN(date.getTime()) ? NO_DAY : date;
}

const PAGE_WORDS = {
  en: (page: number, pages: number) => `Page ${page} of ${pages}`,
  de: (page: number, pages: number) => `Seite ${page} von ${pages}`,
} as const;

export async function makePdf(page: Page): Promise<MadePdf> {
  const logo = page.letterhead?.logo;
  if (logo === undefined) return made(page);
  const reason = whyNotShown(logo);
  if (reason === undefined) {
    try {
      return await made(page);
    } catch {
      // A picture that the library does not take; whatever else went wrong goes wrong without it too.
    }
  }
  const { logo: _unread, ...letterhead } = page.letterhead!;
  const head = [logo.alt, ...letterhead.head];
  return {
    ...(await made({ ...page, letterhead: { ...letterhead, head } })),
    unread: logo.alt,
    unreadReason: reason ?? "it is not read",
  };
}

async function made(page: Page): Promise<MadePdf> {
  const document = pdfDocument(page, measure);
  const missing = new Set<string>();
  for (const { sign, bold } of signsOf(document))
    if (!hasSign(sign, bold ? "bold" : "normal")) missing.add(sign);
  const usual = await laidOut(document);
  if (usual.sides < 2 || usual.lastPt > SPARSE_SHARE * document.pageSize.height)
    return { bytes: usual.bytes, missing: [...missing] };
  // The layout writes into what it is given: once more from the page.
  const tight = await laidOut(tightened(pdfDocument(page, measure)));
  const { bytes } = tight.sides < usual.sides ? tight : usual;
  return { bytes, missing: [...missing] };
}

/** Where the last part begins above this share of its side, a second try is worth its time, a little tighter. */
const SPARSE_SHARE = 0.4;

interface LaidOut {
  readonly bytes: Uint8Array;
  readonly sides: number;
  /** Where the last part begins, from the upper edge of its side. */
  readonly lastPt: number;
}

async function laidOut(document: PdfDocument): Promise<LaidOut> {
  let lastPt = 0;
  let sides = 0;
  const bytes = await pdfmake
    .createPdf(
      definitionOf(document, {
        // All parts in order, and that again as often as one moves on: what is told last is the last part where it stays.
        at: ({ top }) => {
          lastPt = top;
        },
        ofSides: (count) => {
          sides = count;
        },
      }),
    )
    .getBuffer();
  return { bytes, sides, lastPt };
}

/** Told while a document is laid out. */
interface Watching {
  at(place: Laid["startPosition"]): void;
  ofSides(count: number): void;
}

function definitionOf(
  { title, subject, language, day, pageSize, pageMargins, running, last, content }: PdfDocument,
  watching: Watching,
): object {
  const [left, , right] = pageMargins;
  return {
    version: "1.7",
    pageSize: { ...pageSize },
    pageMargins: [...pageMargins],
    language,
    displayTitle: true,
    info: { title, subject, creator: "Hopwright", producer: "Hopwright", creationDate: dayOf(day) },
    defaultStyle: { font: FAMILY, color: PRINT.ink, lineHeight: 1.04 },
    content,
    footer: (side: number, sides: number) => {
      watching.ofSides(sides);
      return footNode(side, sides);
    },
    pageBreakBefore: (laid: Laid, others: Others) => {
      watching.at(laid.startPosition);
      return isLeftBehind(laid, others);
    },
  };
  function footNode(side: number, sides: number): object {
    return {
      columns: [
        {
          text: side === sides && last !== "" ? [running, "\n", { text: last, fontSize: 6 }] : running,
          width: "*",
        },
        { text: PAGE_WORDS[language](side, sides), width: "auto", alignment: "right" },
      ],
      columnGap: 20,
      fontSize: 7,
      color: PRINT.quiet,
      margin: [left, 8, right, 0],
    };
  }
}

/** What the layout tells of a part that has its place; the side is right only of the first line of what has a name. */
interface Laid {
  readonly id?: string;
  readonly headlineLevel?: number;
  readonly startPosition: { readonly top: number; readonly pageNumber: number };
}

interface Others {
  getFollowingNodesOnPage(): readonly Laid[];
}

/** At the head of a side a heading stands well, whatever follows. */
const HEAD_OF_SIDE_PT = 60;

/** What leads to something does not stay as the last words of a side. */
function isLeftBehind({ headlineLevel, startPosition }: Laid, { getFollowingNodesOnPage }: Others): boolean {
  if (headlineLevel === undefined || startPosition.top < HEAD_OF_SIDE_PT) return false;
  return getFollowingNodesOnPage().every(
    (other) =>
      other.id === undefined ||
      other.headlineLevel !== undefined ||
      other.startPosition.pageNumber !== startPosition.pageNumber,
  );
}
