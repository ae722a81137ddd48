import type { IToken } from "chevrotain";
import { isDeclarationKind } from "../schema/kinds.js";

/** `site TARN {` at the left margin: a declaration that cannot stand inside a block. */
export function startsDeclaration(tokens: readonly IToken[], index: number): boolean {
  const token = tokens[index]!;
  if (token.startColumn !== 1 || !isDeclarationKind(token.image)) return false;
  for (let i = index + 1; i < tokens.length; i++) {
    const name = tokens[i]!.tokenType.name;
    if (name === "{") return true;
    if (name === "SEP" || name === "}") return false;
  }
  return false;
}
