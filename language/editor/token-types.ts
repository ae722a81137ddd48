/** Names from the editor protocol's own list, so that every colour theme knows them. */
export const TOKEN_TYPES = [
  "comment",
  "string",
  "number",
  "keyword",
  "operator",
  "property",
  "enumMember",
  /** A unit. */
  "type",
  "namespace",
  "function",
  "class",
  "variable",
  "interface",
  "enum",
  /** The identifier of a rule. */
  "event",
] as const;
export type TokenType = (typeof TOKEN_TYPES)[number];
