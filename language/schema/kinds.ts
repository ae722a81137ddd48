/**
 * What can be declared at the left margin and has a name that others refer to: a row a kind. What holds for some kinds
 * alone is a column; where every kind has to say something of its own, a table there is bound to these rows by its type,
 * so that a new row does not compile before all of them know it (`tests/language/kinds.test.ts` tries one).
 */

interface KindRow {
  /** May inherit from another of its kind (`like`) and be a template. */
  readonly inherits?: true;
  /** Installed in hops by name: a name that nothing bears makes the line that installs it unusable. */
  readonly installed?: true;
  /** Values that list all there are depend on this key, which stands for the set of names. */
  readonly all?: string;
  /** Lines with which a fix declares a name that nothing bears, each still to be filled in; undefined: none is offered. */
  readonly begins?: readonly string[];
}

const KINDS = {
  site: { begins: ["at ?", "structure ? ?"] },
  hop: {},
  demand: {},
  radio: {
    inherits: true,
    installed: true,
    all: "radios",
    begins: ["tuning ? to ?", "mode ? ? rate ? power ? threshold ?"],
  },
  antenna: {
    inherits: true,
    installed: true,
    all: "antennas",
    begins: ["band ? to ?", "diameter ?", "gain ?"],
  },
  coupler: {
    inherits: true,
    installed: true,
    all: "couplers",
    begins: ["kind ?", "band ? to ?", "main-loss ?"],
  },
  feeder: { inherits: true, installed: true, begins: ["kind ?", "band ? to ?", "loss ?"] },
  cable: { inherits: true, begins: [] },
  chassis: { inherits: true, begins: [] },
  card: { inherits: true, begins: [] },
  objective: { inherits: true, begins: ["availability ?"] },
  plan: { all: "plans" },
} as const satisfies Readonly<Record<string, KindRow>>;

export type NamedKind = keyof typeof KINDS;

export const NAMED_KINDS = Object.keys(KINDS) as readonly NamedKind[];

export function kindRow(kind: NamedKind): KindRow {
  return KINDS[kind];
}

export const INHERITING_KINDS: ReadonlySet<string> = new Set(
  NAMED_KINDS.filter((kind) => kindRow(kind).inherits),
);

/** Kinds that hops install by name. */
export type InstalledKind = {
  [Kind in NamedKind]: (typeof KINDS)[Kind] extends { readonly installed: true } ? Kind : never;
}[NamedKind];

export function isInstalled(kind: NamedKind): kind is InstalledKind {
  return kindRow(kind).installed ?? false;
}

const DECLARATION_KINDS: ReadonlySet<string> = new Set([...NAMED_KINDS, "network", "template"]);

export function isDeclarationKind(word: string): boolean {
  return DECLARATION_KINDS.has(word);
}

export function isNamedKind(word: string): word is NamedKind {
  return Object.hasOwn(KINDS, word);
}
