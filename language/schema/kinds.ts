/** What can be declared at the left margin, and which of it has a name that others refer to. */

export const NAMED_KINDS = [
  "site",
  "hop",
  "radio",
  "antenna",
  "coupler",
  "feeder",
  "cable",
  "chassis",
  "card",
  "objective",
  "plan",
] as const;
export type NamedKind = (typeof NAMED_KINDS)[number];

/** Kinds that may inherit from another of their kind (`like`) and be templates. */
export const INHERITING_KINDS: ReadonlySet<string> = new Set([
  "radio",
  "antenna",
  "coupler",
  "feeder",
  "cable",
  "chassis",
  "card",
  "objective",
]);

const DECLARATION_KINDS: ReadonlySet<string> = new Set([...NAMED_KINDS, "network", "template"]);

export function isDeclarationKind(word: string): boolean {
  return DECLARATION_KINDS.has(word);
}

export function isNamedKind(word: string): word is NamedKind {
  return (NAMED_KINDS as readonly string[]).includes(word);
}
