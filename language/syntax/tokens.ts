/** Tokens of the grammar, with one thing that an expression can't do: to know at once that a comment never ends. */
import type { CustomPatternMatcherFunc, TokenType } from "chevrotain";
import { DefaultTokenBuilder, type GrammarAST } from "langium";

export class HopTokenBuilder extends DefaultTokenBuilder {
  protected override buildTerminalToken(terminal: GrammarAST.TerminalRule): TokenType {
    const token = super.buildTerminalToken(terminal);
    if (terminal.name !== "BLOCK_COMMENT") return token;
    return { ...token, PATTERN: closedComment(), LINE_BREAKS: true, START_CHARS_HINT: ["/"] };
  }
}

/**
 * The grammar's expression looks for the end of the comment up to the end of the text, each time anew: with thousands
 * of comments that are not closed it takes minutes. Where the last end lies is found once.
 */
function closedComment(): CustomPatternMatcherFunc {
  let known = "";
  let lastEnd = -1;
  return (text, offset) => {
    if (text.charCodeAt(offset + 1) !== 0x2a || text.charCodeAt(offset) !== 0x2f) return null;
    if (text !== known) {
      known = text;
      lastEnd = text.lastIndexOf("*/");
    }
    if (offset + 2 > lastEnd) return null;
    return [text.slice(offset, text.indexOf("*/", offset + 2) + 2)] as unknown as RegExpExecArray;
  };
}
