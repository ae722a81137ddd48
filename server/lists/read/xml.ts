/** XML of strangers, element by element: no entity but XML's own is known, so that none is ever fetched or unfolded. */
import { SaxesParser, type SaxesTagPlain } from "saxes";
import { UnfitList } from "./bounds.js";

export interface XmlListener {
  open(name: string, attributes: Readonly<Record<string, string>>): void;
  close(name: string): void;
  text(text: string): void;
}

const PIECE = 65_536;
const DEEPEST = 200;

/** Names come without their prefix. @throws UnfitList with the line of what is no XML */
export function readXml(text: string, listener: XmlListener): void {
  const parser = new SaxesParser();
  let depth = 0;
  parser.on("error", (error) => {
    throw new UnfitList(`it is no XML that can be read: ${error.message}`);
  });
  parser.on("opentag", ({ name, attributes, isSelfClosing: _ }: SaxesTagPlain) => {
    if (++depth > DEEPEST) throw new UnfitList(`its elements lie more than ${DEEPEST} deep in each other`);
    listener.open(local(name), attributes);
  });
  parser.on("closetag", ({ name }) => {
    depth--;
    listener.close(local(name));
  });
  parser.on("text", (piece) => listener.text(piece));
  parser.on("cdata", (piece) => listener.text(piece));
  for (let at = 0; at < text.length; at += PIECE) parser.write(text.slice(at, at + PIECE));
  parser.close();
}

function local(name: string): string {
  return name.slice(name.indexOf(":") + 1);
}
