/**
 * What a PDF is made of, as plain data: a host lays it out and writes it. Lengths in points, a seventy-second of an
 * inch.
 */

export interface TextPart {
  readonly text: string;
  readonly bold?: true;
  readonly color?: string;
  readonly background?: string;
}

export interface TextNode {
  readonly text: readonly TextPart[];
  readonly fontSize: number;
  readonly alignment?: "left" | "right";
  readonly margin?: Margin;
  /** Never the last on a side: it leads to what follows. */
  readonly headlineLevel?: number;
  /** Other parts of the document lead here. */
  readonly id?: string;
  /** It stands in the reader's list of contents. */
  readonly outline?: true;
  /** Its words there. */
  readonly outlineText?: string;
}

interface StackNode {
  readonly stack: readonly Node[];
  /** On one side whole. Only what surely fits: what is taller would be cut. */
  readonly unbreakable?: true;
  readonly margin?: Margin;
  readonly width?: number;
}

interface ColumnsNode {
  readonly columns: readonly StackNode[];
  readonly columnGap: number;
  readonly margin?: Margin;
}

/** Sides of a cell that have a line: left, top, right, bottom. */
export type Border = readonly [boolean, boolean, boolean, boolean];

export type Cell = Node & { readonly border?: Border; readonly fillColor?: string };

/** `rows`: a thin line below each; `boxes`: the same with lines at boxes; `frame`: a strong line around; `none`. */
type Layout = "rows" | "boxes" | "frame" | "none";

export interface TableNode {
  readonly table: {
    /** Repeated at the head of each side that the table goes over. */
    readonly headerRows?: number;
    /** So many rows never part from the head. */
    readonly keepWithHeaderRows?: number;
    readonly dontBreakRows?: true;
    readonly widths: readonly number[];
    /** Least height of a row. */
    readonly heights?: number;
    readonly body: readonly (readonly Cell[])[];
  };
  readonly layout: Layout;
  readonly margin?: Margin;
}

export interface DrawingNode {
  /** Its paint in attributes. */
  readonly svg: string;
  readonly fit: readonly [number, number];
  readonly margin?: Margin;
}

/** A picture of dots, its bytes in the address. */
export interface PictureNode {
  readonly image: string;
  readonly width: number;
  readonly height: number;
  /** In its place where it cannot be read. */
  readonly alt: string;
  readonly margin?: Margin;
}

/** The number of the side on which what has the name came to stand. */
interface NumberNode {
  readonly pageReference: string;
  readonly fontSize: number;
  readonly alignment: "right";
  readonly margin?: Margin;
}

interface ListNode {
  readonly ul: readonly TextNode[];
  readonly margin?: Margin;
}

export type Node =
  | TextNode
  | StackNode
  | ColumnsNode
  | TableNode
  | DrawingNode
  | PictureNode
  | NumberNode
  | ListNode;

/** Left, top, right, bottom. */
export type Margin = readonly [number, number, number, number];

export interface PdfDocument {
  readonly title: string;
  readonly subject?: string;
  readonly language: "en" | "de";
  /** ISO date; undefined: of no day. */
  readonly day?: string;
  readonly pageSize: { readonly width: number; readonly height: number };
  readonly pageMargins: Margin;
  /** At the foot of every side, beside its number. */
  readonly running: string;
  /** At the foot of the last side; empty: none. */
  readonly last: string;
  readonly content: readonly Node[];
}
