/** A PDF as another program reads it: the text of each side, what would run or lead away, what it says of itself. */
import { extractText, getDocumentProxy } from "unpdf";

export interface ReadPdf {
  /** Text of each side, in the order in which it was set. */
  readonly sides: readonly string[];
  readonly info: Readonly<Record<string, unknown>>;
  /** Scripts, actions, links, files: what a sheet never has. */
  readonly active: readonly unknown[];
  readonly outline: readonly string[];
  /** Width and height in points. */
  readonly size: readonly number[];
}

export async function readPdf(bytes: Uint8Array): Promise<ReadPdf> {
  const read = await getDocumentProxy(new Uint8Array(bytes));
  const { text } = await extractText(read);
  const active: unknown[] = [
    await read.getJSActions(),
    await read.getOpenAction(),
    await read.getAttachments(),
  ].filter((one) => one !== null);
  let size: readonly number[] = [];
  for (let side = 1; side <= read.numPages; side++) {
    const page = await read.getPage(side);
    active.push(...(await page.getAnnotations()).filter((one) => !isWithin(one)));
    size = page.view.slice(2);
  }
  const { info } = await read.getMetadata();
  const outline = (await read.getOutline()) ?? [];
  return {
    sides: text,
    info: info as Record<string, unknown>,
    active,
    outline: outline.map(({ title }) => title),
    size,
  };
}

/** A way to another side of the same document. */
function isWithin(one: Readonly<Record<string, unknown>>): boolean {
  const { subtype, dest, url, unsafeUrl, action } = one;
  return subtype === "Link" && dest !== undefined && [url, unsafeUrl, action].every((way) => !way);
}

/** Without blanks: where a line breaks is no part of the text. */
export function dense(text: string): string {
  return text.normalize("NFKC").replace(/\s+/g, "");
}
