/** New sites, hops and entries of the catalogue as text in the one layout. */
import { lineOf, type NewHop, type NewPart, type NewSite, type Statement } from "../../shared/lists/state.js";
import { quote } from "../syntax/tree.js";

export function siteText({ name, title, facts }: NewSite): string {
  return block(`site ${name}`, title, facts, []);
}

export function hopText({ name, title, facts, ends }: NewHop): string {
  const inner = ends.flatMap(({ site, facts: said }) =>
    said.length === 0 ? [`  ${site} {}`] : [`  ${site} {`, ...said.map((one) => `    ${lineOf(one)}`), "  }"],
  );
  return block(`hop ${name}`, title, facts, inner);
}

export function partText({ kind, name, facts }: NewPart): string {
  return block(`${kind} ${name}`, undefined, facts, []);
}

function block(
  head: string,
  title: string | undefined,
  facts: readonly Statement[],
  inner: readonly string[],
): string {
  const begun = title === undefined ? head : `${head} ${quote(title)}`;
  const lines = [...facts.map((fact) => `  ${lineOf(fact)}`), ...inner];
  return lines.length === 0 ? `${begun} {}\n` : `${begun} {\n${lines.join("\n")}\n}\n`;
}

export interface ListFile {
  readonly path: string;
  readonly text: string;
  readonly count: number;
}

/**
 * Blocks as files of a sensible size: one where they fit, else numbered. No name that is taken is given again.
 * @param base without its ending: `hops`, `catalogue/antennas`
 */
export function filesOf(
  base: string,
  blocks: readonly string[],
  most: number,
  isTaken: (path: string) => boolean,
): readonly ListFile[] {
  const files: ListFile[] = [];
  const count = Math.ceil(blocks.length / most);
  const width = String(count).length;
  let number = 0;
  for (let at = 0; at < blocks.length; at += most) {
    const some = blocks.slice(at, at + most);
    let path = count === 1 ? `${base}.hop` : "";
    while (path === "" || isTaken(path)) path = `${base}-${String(++number).padStart(width, "0")}.hop`;
    files.push({ path, text: some.join("\n"), count: some.length });
  }
  return files;
}
