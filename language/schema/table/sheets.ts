/** Templates of sheets: what is made, what stands on it, and who hands it out. */
import { CAUTIONS, ERRORS, SHEET_SECTIONS, type SheetKind } from "../../../shared/report/sheets/kinds.js";
import type { ArgSpec, WordSpec } from "../types.js";
import { one, PRACTICE, phrase, type Rows, text } from "./values.js";

const KINDS = Object.keys(SHEET_SECTIONS) as readonly SheetKind[];
const kind = phrase(KINDS, (word) => `sheets of the kind ${word}`);

const SECTIONS = [...new Set(KINDS.flatMap((word): readonly string[] => SHEET_SECTIONS[word]))];

const section: WordSpec = {
  type: "word",
  words: Object.fromEntries(
    SECTIONS.map((word) => [
      word,
      `of ${KINDS.filter((of) => (SHEET_SECTIONS[of] as readonly string[]).includes(word)).join(", ")}`,
    ]),
  ),
  left: {
    [CAUTIONS]: { instead: "cautions stay on every sheet, where they are" },
    [ERRORS]: { instead: "errors of the design stay on every sheet that tells some, where they are" },
  },
};

const ofKind: ArgSpec = {
  name: "of",
  label: "of",
  optional: true,
  value: kind,
  meaning: "Kind of sheets that it holds for.",
  fallback: "all that have it",
};

const sections: readonly ArgSpec[] = [{ name: "section", value: section, meaning: "Section." }, ofKind];

export const sheetRows: Rows = [
  {
    name: "sheets",
    in: ["network", "file"],
    alsoCalled: ["letterhead"],
    args: [
      {
        name: "name",
        value: { type: "free", example: "DESK" },
        meaning: "Name that `hopwright sheets --template` takes.",
      },
    ],
    block: "sheets",
    repeatable: true,
    meaning:
      "A template for the papers that `hopwright sheets` writes: which are made, which sections of them, lines and fields of one's own, and whose they are. The only one of a design is taken unasked. Cautions stay on every sheet, and so do errors of the design.",
    fallback: "all sheets, whole, with nobody's name",
    source: PRACTICE,
    example: "sheets DESK {",
  },
  {
    name: "make",
    in: ["sheets"],
    args: [{ name: "kinds", value: kind, list: true, meaning: "Kinds of sheets." }],
    meaning: "Which kinds are made where `--sheet` names none.",
    fallback: "all",
    source: PRACTICE,
    example: "make line-up, licences",
  },
  {
    name: "leave-out",
    in: ["sheets"],
    alsoCalled: ["omit", "hide"],
    args: sections,
    repeatable: true,
    meaning:
      "A section that does not stand on the sheets. Cautions and errors of the design cannot be left out.",
    fallback: "all sections stand",
    source: PRACTICE,
    example: "leave-out less of line-up",
  },
  {
    name: "first",
    in: ["sheets"],
    args: sections,
    repeatable: true,
    meaning:
      "A section that stands before the others; of several in the order of the lines. Cautions and errors that lead stay ahead.",
    fallback: "the usual order",
    source: PRACTICE,
    example: "first runs of parts",
  },
  {
    name: "company",
    in: ["sheets"],
    args: one("name", text, "As it stands on the sheets."),
    meaning: "Name of the company at the head of each sheet.",
    fallback: "none",
    source: PRACTICE,
    example: 'company "Eskerfold Networks"',
  },
  {
    name: "logo",
    in: ["sheets"],
    args: [
      {
        name: "file",
        value: { type: "path" },
        meaning: "PNG or JPEG in the folder of the design, relative to this file.",
      },
      {
        name: "alt",
        label: "alt",
        optional: true,
        value: text,
        meaning: "What it shows, for those who do not see it.",
        fallback: "logo of the company",
      },
    ],
    meaning: "Picture at the head of each sheet.",
    fallback: "none",
    source: PRACTICE,
    example: 'logo "logo.png"',
  },
  {
    name: "head",
    in: ["sheets"],
    args: one("text", text, "Shown as it is."),
    repeatable: true,
    meaning: "A line at the head of each sheet, below the company.",
    fallback: "none",
    source: PRACTICE,
    example: 'head "Project 4711, lot 2"',
  },
  {
    name: "foot",
    in: ["sheets"],
    args: one("text", text, "Shown as it is."),
    repeatable: true,
    meaning: "A line at the foot of each sheet.",
    fallback: "none",
    source: PRACTICE,
    example: 'foot "Send back within a week."',
  },
  {
    name: "instruction",
    in: ["sheets"],
    args: [{ name: "text", value: text, meaning: "Shown as it is." }, ofKind],
    repeatable: true,
    meaning:
      "A line of one's own behind the order of the work, with a box; on sheets without such an order in a list.",
    fallback: "none",
    source: PRACTICE,
    example: 'instruction "Photograph every label." of line-up',
  },
  {
    name: "field",
    in: ["sheets"],
    args: [
      { name: "label", value: text, meaning: "Shown as it is." },
      {
        name: "value",
        optional: true,
        value: text,
        meaning: "What stands there.",
        fallback: "what the hop or site of the sheet states as its own field; else an empty box",
      },
      ofKind,
    ],
    repeatable: true,
    meaning: "A field of one's own on the sheets.",
    fallback: "none",
    source: PRACTICE,
    example: 'field "Work order" of line-up',
  },
  {
    name: "field",
    in: ["hop", "site"],
    args: [
      { name: "label", value: text, meaning: "Shown as it is." },
      { name: "value", value: text, meaning: "Shown as it is." },
    ],
    repeatable: true,
    meaning: "Something of one's own that its sheets show as it is stated; nothing is computed from it.",
    fallback: "none",
    source: PRACTICE,
    example: 'field "Work order" "4711-2"',
  },
  {
    name: "language",
    in: ["sheets"],
    args: one(
      "value",
      { type: "word", words: { en: "English", de: "German, with its decimal comma and days" } },
      "Language.",
    ),
    meaning: "Language of the sheets where `--language` names none.",
    fallback: "en",
    source: PRACTICE,
    example: "language de",
  },
  {
    name: "paper",
    in: ["sheets"],
    args: one(
      "value",
      phrase(["A4", "Letter"], (word) => `pages of size ${word}`),
      "Size.",
    ),
    meaning: "Paper that the sheets are laid out for.",
    fallback: "as the reader's printer is set",
    source: PRACTICE,
    example: "paper A4",
  },
];
