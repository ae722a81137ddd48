/**
 * Folders of the core that are mutated, by the name that the command takes, each with the suites that are to find its
 * mutants: those of its subject. All others would find some more, by the way, and take minutes a mutant.
 */
const SUITES = {
  propagation: ["propagation", "p530", "evaluate", "design"],
  evaluate: ["evaluate", "p530", "design", "rules", "as-built"],
  network: ["equipment", "rules", "demands", "interference", "licence", "report"],
  rules: ["rules", "fixes", "equipment", "licence", "as-built", "demands", "interference"],
  equipment: ["equipment", "rules", "report", "demands"],
  spectrum: ["spectrum", "interference", "licence", "rules"],
  compare: ["compare", "licence"],
} as const;

export type Folder = keyof typeof SUITES;

export const FOLDERS = Object.keys(SUITES) as readonly Folder[];

/** The environment's name for the folder that is mutated, by which the runner of tests knows its suites. */
export const MUTATED = "HOPWRIGHT_MUTATED";

export function suitesOf(folder: string | undefined): readonly string[] {
  return folder !== undefined && isFolder(folder) ? SUITES[folder] : [];
}

export function isFolder(name: string): name is Folder {
  return Object.hasOwn(SUITES, name);
}

/** Not those: words are for people, and what runs once at the start would be judged by every test. */
export const EXCLUDED_MUTATIONS = ["StringLiteral", "Regex", "ObjectLiteral", "ArrayDeclaration"];
