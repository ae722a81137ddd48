/** Folders of the core that are mutated, by the name that the command takes. */
export const FOLDERS = [
  "propagation",
  "evaluate",
  "network",
  "rules",
  "equipment",
  "spectrum",
  "compare",
] as const;

export type Folder = (typeof FOLDERS)[number];

export function isFolder(name: string): name is Folder {
  return (FOLDERS as readonly string[]).includes(name);
}

/** Not those: words are for people, and what runs once at the start would be judged by every test. */
export const EXCLUDED_MUTATIONS = ["StringLiteral", "Regex", "ObjectLiteral", "ArrayDeclaration"];
