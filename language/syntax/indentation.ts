/** Where a block ends whose brace was forgotten, as far as the indentation tells. */
import type { IToken } from "chevrotain";
import { startsDeclaration } from "./starts-declaration.js";

/**
 * Of a declaration in which more braces open than close. Only there is the indentation asked: elsewhere braces alone
 * decide, however a text is laid out.
 */
export class Indentation {
  /** For each token the declaration that it stands in, counted from 0. */
  private readonly declarations: readonly number[];
  /** For each declaration how many braces are missing; none or less: nothing is to be mended. */
  private readonly missing: number[] = [];
  /** Of each brace that opens: the column of its line, where the lines inside stand deeper. */
  private readonly columns = new Map<IToken, number>();

  constructor(private readonly tokens: readonly IToken[]) {
    let declaration = 0;
    let lineColumn = 1;
    this.declarations = tokens.map((token, index) => {
      const name = token.tokenType.name;
      if (startsDeclaration(tokens, index)) declaration++;
      if (this.beginsLine(index) && name !== "SEP") lineColumn = token.startColumn!;
      const change = name === "{" ? 1 : name === "}" ? -1 : 0;
      this.missing[declaration] = (this.missing[declaration] ?? 0) + change;
      if (name === "{") {
        const inside = tokens[index + 1]?.tokenType.name === "SEP" ? tokens[index + 2] : undefined;
        if (inside && inside.startColumn! > lineColumn) this.columns.set(token, lineColumn);
      }
      return declaration;
    });
  }

  /** Whether a token stands behind the block of an open brace, as the indentation says. */
  ends(brace: IToken | undefined, index: number): boolean {
    const column = brace && this.columns.get(brace);
    const token = this.tokens[index]!;
    const name = token.tokenType.name;
    if (column === undefined || (this.missing[this.declarations[index]!] ?? 0) <= 0) return false;
    if (name === "SEP" || !this.beginsLine(index)) return false;
    return name === "}" ? token.startColumn! < column : token.startColumn! <= column;
  }

  /** One of the braces that a declaration lacks has been added. */
  closed(index: number): void {
    const declaration = this.declarations[index]!;
    this.missing[declaration] = (this.missing[declaration] ?? 0) - 1;
  }

  private beginsLine(index: number): boolean {
    const before = this.tokens[index - 1];
    return before === undefined || before.endLine! < this.tokens[index]!.startLine! || isLineEnd(before);
  }
}

function isLineEnd({ tokenType, image }: IToken): boolean {
  return tokenType.name === "SEP" && image !== ";";
}
