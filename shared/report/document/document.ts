/**
 * A report as data: what it says and in which order, nothing of how it looks. The pages are made of these blocks
 * (`../pages`), and each printer (`html.ts`, `markdown.ts`) knows every block once.
 */

/** How something stands against what is asked; printers never show it by colour alone. */
export type Tone = "good" | "error" | "warning" | "info" | "accepted" | "unjudged";

/** Another page of the same report, without ending: the printer knows its own. */
interface PageLink {
  readonly page: string;
}

export interface MarkedText {
  readonly text: string;
  readonly mark?: "strong" | "code" | "quiet" | Tone;
  readonly to?: PageLink;
}

export type Span = string | MarkedText;

/** A run of text. */
export type Inline = Span | readonly Span[];

export interface Column {
  readonly title: string;
  /** Figures stand right, so that their digits stand below each other. */
  readonly align?: "left" | "right";
  /** To be filled in by hand: its empty cells are drawn as boxes. */
  readonly fill?: true;
}

export interface TableRow {
  readonly cells: readonly Inline[];
  /** For example the mode that the objective is held against. */
  readonly emphasis?: boolean;
  /** By what else the row is found, where its table can be searched: the sites of a hop. */
  readonly find?: string;
}

export interface Table {
  readonly type: "table";
  readonly caption?: string;
  readonly columns: readonly Column[];
  readonly rows: readonly TableRow[];
  /** It stays on one side of paper where that has room for it, however long. */
  readonly whole?: true;
  /** It lists what people look for by name. */
  readonly searched?: true;
  /** A reader may put it in the order of a column. */
  readonly sorted?: true;
}

export interface Figure {
  readonly type: "figure";
  /** Name of the drawing's own file where the printer needs one. */
  readonly name: string;
  /** A whole `<svg>` element, coloured by class. */
  readonly svg: string;
  /** The same drawn for a narrow screen, where there is one. */
  readonly narrow?: string;
  /** What the drawing shows, for those who do not see it. */
  readonly alt: string;
  readonly caption?: string;
  /** Half a page wide, where there is room for two side by side. */
  readonly small?: boolean;
  /** No higher on paper than a browser prints it, where other drawings take the room that there is. */
  readonly low?: true;
}

export interface Fact {
  readonly label: string;
  readonly value: Inline;
  readonly note?: string;
}

export interface ReportFinding {
  readonly rule: string;
  readonly severity: "error" | "warning" | "info";
  readonly message: string;
  readonly help?: string;
  /** Where in the text, for example `hops/ring.hop:14:32`. */
  readonly where?: string;
  readonly hop?: string;
  readonly accepted?: { readonly reason?: string; readonly until?: string };
  /** It holds at another time than the one that is shown; the message says when. */
  readonly otherTime?: true;
}

/** A field to fill in by hand. */
export interface FormField {
  readonly label: string;
  /** What is expected there. */
  readonly expected?: string;
  readonly unit?: string;
  /** Filled in already; undefined: an empty box. */
  readonly value?: string;
  /** A whole line of its own. */
  readonly wide?: true;
}

/** A place to sign: the role, and what is written there. */
export interface SigningPlace {
  readonly role: string;
  readonly fields: readonly string[];
}

/** As `lang` of a page. */
export type PageLanguage = "en" | "de";

export type Block =
  | { readonly type: "paragraph"; readonly text: Inline }
  | { readonly type: "list"; readonly items: readonly Inline[] }
  | { readonly type: "facts"; readonly facts: readonly Fact[] }
  | { readonly type: "findings"; readonly findings: readonly ReportFinding[] }
  | { readonly type: "form"; readonly fields: readonly FormField[] }
  | { readonly type: "signatures"; readonly places: readonly SigningPlace[] }
  /** Sentences of safety: seen in black and white, and never parted from their heading. */
  | { readonly type: "cautions"; readonly items: readonly Inline[] }
  /** The way to sections of the same page, by their names. */
  | {
      readonly type: "contents";
      readonly entries: readonly { readonly id: string; readonly title: string }[];
    }
  /** Stand side by side where there is room. */
  | { readonly type: "pair"; readonly sides: readonly (readonly Block[])[] }
  | Table
  | Figure;

export interface Section {
  readonly id: string;
  readonly title: string;
  readonly blocks: readonly Block[];
  /** On paper: left out, as another paper has it, or set small in two columns. Undefined: as on the screen. */
  readonly print?: "left out" | "small";
  /** Short enough for one side of paper, where it stays together. */
  readonly together?: true;
}

/** A figure that a reader looks for first. */
export interface KeyFigure {
  readonly label: string;
  readonly value: string;
  readonly unit?: string;
  readonly note?: string;
  readonly tone?: Tone;
}

/** A picture of dots that the design brings along, whole as its file is: a printer embeds it or writes it beside the page. */
export interface Picture {
  readonly type: "image/png" | "image/jpeg";
  readonly bytes: Uint8Array;
  readonly widthPx: number;
  readonly heightPx: number;
  /** What it shows, for those who do not see it. */
  readonly alt: string;
}

/** What those who hand a page out have at its head and its foot. */
export interface Letterhead {
  /** Of the company. */
  readonly name?: string;
  readonly logo?: Picture;
  /** Lines above the title, below the name. */
  readonly head: readonly string[];
  /** Lines behind all sections. */
  readonly foot: readonly string[];
}

export interface Paper {
  /** ISO 216, or the North American letter. Undefined: as the reader's printer is set, and A4 where there is none. */
  readonly size?: "A4" | "Letter";
  /** For tables of many columns. */
  readonly landscape?: true;
}

export interface Page {
  /** File name without ending; folders parted by `/`. */
  readonly name: string;
  readonly title: string;
  readonly subtitle?: string;
  /** Undefined: English. */
  readonly language?: PageLanguage;
  /** What each printed side carries beside its number: the design's name and revision. */
  readonly running?: string;
  /** Of the commit that the page tells all of, ISO date; undefined: there is none, or something differs from it. */
  readonly commitDay?: string;
  readonly letterhead?: Letterhead;
  /** Undefined: as the reader's printer is set. */
  readonly paper?: Paper;
  /** The way back to the page above. */
  readonly up?: { readonly text: string; readonly to: PageLink };
  readonly keyFigures: readonly KeyFigure[];
  readonly sections: readonly Section[];
  /** Last line: what made the page, and what it is not. */
  readonly colophon: string;
}

/** A printed page: its own file and those that it needs beside it. */
export interface PrintedFile {
  readonly path: string;
  readonly text: string;
}

export function spansOf(inline: Inline): readonly Span[] {
  return typeof inline === "string" || "text" in (inline as MarkedText)
    ? [inline as Span]
    : (inline as readonly Span[]);
}

/** A sentence in which words of the language stand between backticks, as in "State `k` in the climate". */
export function sentence(text: string): Span[] {
  return text
    .split(/(`[^`]+`)/)
    .filter((part) => part !== "")
    .map((part) => (/^`[^`]+`$/.test(part) ? { text: part.slice(1, -1), mark: "code" } : part));
}

/** The way from one page to another: both named from the report's root, parted by `/`. */
export function linkFrom(page: string, target: string, ending: string): string {
  const from = page.split("/").slice(0, -1);
  const to = `${target}${ending}`.split("/");
  let shared = 0;
  while (shared < from.length && from[shared] === to[shared]) shared++;
  const path = to.slice(shared).map((step) => encodeURIComponent(step.toWellFormed()));
  return [...from.slice(shared).map(() => ".."), ...path].join("/");
}
