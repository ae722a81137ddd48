/**
 * What a new kind, property, rule, method or format needs: the files that have to know it, and who asks for it. The page is
 * made from here and from the tables themselves; `tests/language/kinds.test.ts` adds one of each and holds this against
 * what then fails.
 */
export interface Need {
  /** From the repository's root; a folder ends with a slash. */
  readonly file: string;
  readonly what: string;
  /** `types`: it does not compile before; a test by its path; `hand`: what the rest rests on, or nothing asks for it. */
  readonly asked: "types" | "hand" | `tests/${string}`;
}

export const NEEDS = {
  kind: [
    {
      file: "language/schema/kinds.ts",
      what: "its row: what holds for some kinds alone is a column",
      asked: "hand",
    },
    {
      file: "language/schema/table/",
      what: "the row that declares it, and those of its properties; listed in `language/schema/index.ts`",
      asked: "tests/language/kinds.test.ts",
    },
    { file: "shared/design/", what: "its type", asked: "hand" },
    { file: "language/schema/into.ts", what: "its type by name, where rows fill it", asked: "hand" },
    {
      file: "language/resolve/",
      what: "what is made of it: the fields that rows name, and what no row can say; a line of `lookup.ts` and of `language/model/memoized-lookup.ts`",
      asked: "hand",
    },
    {
      file: "language/editor/kinds-shown.ts",
      what: "the colour of its name, its sign in the outline, and what one is in a few lines",
      asked: "types",
    },
  ],
  property: [
    {
      file: "shared/design/",
      what: "the field, with its unit in its name",
      asked: "tests/language/property-row.test.ts",
    },
    {
      file: "language/schema/table/",
      what: "its row; an argument says `into` which field it goes, or what is made of it stands in `language/resolve/`",
      asked: "types",
    },
    {
      file: "language/schema/into.ts",
      what: "of a field that an entry cannot be without, its name among those needed",
      asked: "types",
    },
    {
      file: "shared/evaluate/reason.ts",
      what: "the bounds of a figure that a hop's results rest on",
      asked: "tests/evaluate/reason-rows.test.ts",
    },
    {
      file: "shared/lists/fields.ts",
      what: "a column, or its name among the properties that have none",
      asked: "tests/lists/columns-of-rows.test.ts",
    },
  ],
  rule: [
    {
      file: "shared/rules/",
      what: "a file: what it checks, why, how it is mended, source, a good and a bad example, and its fixes as changes of facts",
      asked: "tests/rules/examples.test.ts",
    },
    {
      file: "shared/rules/index.ts",
      what: "its place, causes before their consequences; of equipment in `equipment/index.ts`",
      asked: "tests/language/kinds.test.ts",
    },
    {
      file: "tests/fixes/rule-cases.ts",
      what: "a design in which its fixes find what they need, where its own example has not",
      asked: "tests/fixes/every-fix.test.ts",
    },
  ],
  method: [
    {
      file: "shared/propagation/",
      what: "a module named after its Recommendation, with a `METHOD` that says how it stands and what it is checked by",
      asked: "types",
    },
    {
      file: "tests/vectors/",
      what: "check values with their source",
      asked: "tests/language/methods-page.test.ts",
    },
    {
      file: "language/docs/methods-page.ts",
      what: "its place in the table of standards",
      asked: "tests/language/methods-page.test.ts",
    },
    {
      file: "shared/evaluate/account/methods.ts",
      what: "its identifier and row, where figures rest on it",
      asked: "types",
    },
  ],
  format: [
    { file: "server/cli/print/", what: "a file with its row and what prints it", asked: "hand" },
    { file: "server/cli/formats.ts", what: "its line", asked: "tests/cli/formats.test.ts" },
    {
      file: "server/docs/formats-page.ts",
      what: "of a command that had no formats, how it is asked",
      asked: "types",
    },
  ],
} as const satisfies Readonly<Record<string, readonly Need[]>>;

export type Thing = keyof typeof NEEDS;
