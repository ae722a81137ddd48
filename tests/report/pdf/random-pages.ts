/** Pages of every block with random words: short and long, of many lines, with what steers a reader. */
import fc from "fast-check";
import type { Block, Inline, Page } from "../../../shared/report/document/document.js";

/** Signs that the font has, and what must not act. */
const SIGN = fc.constantFrom(..."abcdefgHIJKLM0123456789äöüßéÅλΩДж-–−°µ/()[]<>&\"'\\%$#@\u0007\u202e");

const WORD = fc.string({ unit: SIGN, minLength: 1, maxLength: 14 });
const LONG_WORD = fc.string({ unit: SIGN, minLength: 120, maxLength: 300 });
const HOSTILE = fc.constantFrom(
  "/JS (app.alert(1))",
  "<script>alert(1)</script>",
  "endstream endobj",
  "%%EOF",
  ") /OpenAction << /S /JavaScript >>",
  "http://example.org/a",
);

const TEXT: fc.Arbitrary<string> = fc.oneof(
  { weight: 12, arbitrary: fc.array(WORD, { minLength: 1, maxLength: 6 }).map((words) => words.join(" ")) },
  { weight: 2, arbitrary: fc.array(WORD, { minLength: 40, maxLength: 120 }).map((words) => words.join(" ")) },
  { weight: 1, arbitrary: LONG_WORD },
  { weight: 1, arbitrary: HOSTILE },
);

const MARK = fc.constantFrom("strong", "code", "quiet", "good", "error", "warning", "info", "accepted");
const INLINE: fc.Arbitrary<Inline> = fc.oneof(
  TEXT,
  fc.array(fc.oneof(TEXT, fc.record({ text: TEXT, mark: MARK })), {
    minLength: 1,
    maxLength: 3,
  }) as fc.Arbitrary<Inline>,
);

const few = <T>(one: fc.Arbitrary<T>, maxLength = 4) => fc.array(one, { minLength: 1, maxLength });

const TABLE = fc
  .record({ columns: fc.integer({ min: 1, max: 13 }), rows: fc.integer({ min: 0, max: 40 }) })
  .chain(({ columns, rows }) =>
    fc.record({
      type: fc.constant("table" as const),
      caption: TEXT,
      columns: fc.array(
        fc.record(
          {
            title: WORD,
            align: fc.constantFrom("left" as const, "right" as const),
            fill: fc.constant(true as const),
          },
          { requiredKeys: ["title"] },
        ),
        { minLength: columns, maxLength: columns },
      ),
      rows: fc.array(
        fc.record({
          cells: fc.array(columns > 6 ? WORD : INLINE, { minLength: columns, maxLength: columns }),
          emphasis: fc.boolean(),
        }),
        { minLength: rows, maxLength: rows },
      ),
    }),
  );

const FIGURE = fc
  .record({
    width: fc.integer({ min: 20, max: 1200 }),
    height: fc.integer({ min: 20, max: 3000 }),
    caption: TEXT,
  })
  .map(({ width, height, caption }) => ({
    type: "figure" as const,
    name: "figure",
    svg: `<svg viewBox="0 0 ${width} ${height}" width="${width}" height="${height}"><path class="ray" d="M0 0L${width} ${height}"/></svg>`,
    alt: "",
    caption,
  }));

const FLAT: fc.Arbitrary<Block> = fc.oneof(
  fc.record({ type: fc.constant("paragraph" as const), text: INLINE }),
  fc.record({ type: fc.constant("list" as const), items: few(INLINE) }),
  fc.record({
    type: fc.constant("facts" as const),
    facts: few(fc.record({ label: TEXT, value: INLINE, note: TEXT }, { requiredKeys: ["label", "value"] })),
  }),
  fc.record({
    type: fc.constant("findings" as const),
    findings: few(
      fc.record(
        {
          rule: WORD,
          severity: fc.constantFrom("error" as const, "warning" as const, "info" as const),
          message: TEXT,
          help: TEXT,
          where: WORD,
          hop: WORD,
          accepted: fc.record({ reason: TEXT }),
        },
        { requiredKeys: ["rule", "severity", "message"] },
      ),
    ),
  }),
  fc.record({
    type: fc.constant("form" as const),
    fields: few(
      fc.record(
        {
          label: TEXT,
          expected: WORD,
          unit: fc.constantFrom("m", "dBm"),
          value: WORD,
          wide: fc.constant(true as const),
        },
        { requiredKeys: ["label"] },
      ),
      8,
    ),
  }),
  fc.record({
    type: fc.constant("signatures" as const),
    places: few(fc.record({ role: TEXT, fields: few(WORD) })),
  }),
  fc.record({ type: fc.constant("cautions" as const), items: few(INLINE, 8) }),
  TABLE as fc.Arbitrary<Block>,
  FIGURE,
);

const BLOCK: fc.Arbitrary<Block> = fc.oneof(
  { weight: 8, arbitrary: FLAT },
  {
    weight: 1,
    arbitrary: fc.record({
      type: fc.constant("pair" as const),
      sides: fc.tuple(few(FLAT, 2), few(FLAT, 2)),
    }),
  },
);

/** Sections have headings `Head0`, `Head1`, ... */
export const PAGE: fc.Arbitrary<Page> = fc
  .record(
    {
      name: fc.constant("page"),
      title: TEXT,
      subtitle: TEXT,
      language: fc.constantFrom("en" as const, "de" as const),
      running: WORD,
      paper: fc.record({ size: fc.constantFrom("A4" as const, "Letter" as const) }),
      keyFigures: fc.array(fc.record({ label: WORD, value: WORD, unit: WORD, note: TEXT }), { maxLength: 7 }),
      blocks: few(few(BLOCK, 3), 5),
      colophon: TEXT,
    },
    { requiredKeys: ["name", "title", "keyFigures", "blocks", "colophon"] },
  )
  .map(({ blocks, ...page }) => ({
    ...page,
    sections: blocks.map((those, at) => ({ id: `map${at}`, title: `Head${at}x`, blocks: those })),
  }));

/** Every text of a page, of whatever block. */
export function textsOf(value: unknown, key = ""): string[] {
  if (typeof value === "string") return NO_TEXT.has(key) ? [] : [value];
  if (typeof value !== "object" || value === null) return [];
  return Object.entries(value).flatMap(([name, one]) => textsOf(one, Array.isArray(value) ? key : name));
}

const NO_TEXT: ReadonlySet<string> = new Set([
  "name",
  "id",
  "type",
  "mark",
  "tone",
  "align",
  "severity",
  "language",
  "size",
  "svg",
  "alt",
]);
