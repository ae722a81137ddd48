/** Where each piece of text of a PDF stands, as another program reads it. */
import { getDocumentProxy } from "unpdf";
import { GAP } from "../../../shared/report/document/pdf/tables.js";

/** In points from the lower left corner of its side. */
interface PlacedText {
  readonly side: number;
  readonly text: string;
  readonly left: number;
  readonly right: number;
  /** Of its letters' foot. */
  readonly bottom: number;
  readonly top: number;
}

export interface PlacedSides {
  readonly width: number;
  readonly height: number;
  readonly sides: number;
  readonly texts: readonly PlacedText[];
}

export async function placedTexts(bytes: Uint8Array): Promise<PlacedSides> {
  const read = await getDocumentProxy(new Uint8Array(bytes));
  const texts: PlacedText[] = [];
  let [width, height] = [0, 0];
  for (let side = 1; side <= read.numPages; side++) {
    const page = await read.getPage(side);
    [width, height] = page.view.slice(2) as [number, number];
    for (const item of (await page.getTextContent()).items) {
      if (!("str" in item) || item.str.trim() === "") continue;
      const [, , , , left, bottom] = item.transform as number[];
      texts.push({
        side,
        text: item.str,
        left: left!,
        right: left! + item.width,
        bottom: bottom!,
        top: bottom! + item.height,
      });
    }
  }
  return { width, height, sides: read.numPages, texts };
}

/** Margins of `definition.ts`; what stands lower is the foot of a side. */
const FRAME = { side: 40, top: 32, foot: 40 };
/**
 * Where two marks meet within a word that breaks, the layout may set its last letter over the edge of the column; that
 * reaches no neighbour as long as it stays within the gap between columns.
 */
const SLACK = GAP;
/** A blank that a line begins with is set before it, where nobody sees it; letters are 16 points at most. */
const BLANK = 16 * 0.32 + SLACK;

/** Texts that lie over the frame of their side: the foot's own words stand below it, above its edge. */
export function outside({ width, height, texts }: PlacedSides): readonly PlacedText[] {
  return texts.filter(({ left, right, bottom, top }) => {
    const isFoot = top < FRAME.foot;
    const lowest = isFoot ? 8 : FRAME.foot - 3;
    return (
      left < FRAME.side - BLANK ||
      right > width - FRAME.side + SLACK ||
      bottom < lowest ||
      top > height - FRAME.top + 3
    );
  });
}
