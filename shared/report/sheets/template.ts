/** A sheet as the design's template has it: its sections, lines and fields of one's own, letterhead and paper. */
import type { OwnField, SheetSection, SheetTemplate } from "../../design/sheets.js";
import type { Block, Fact, FormField, Page, Picture, Section } from "../document/document.js";
import { staysOnSheets } from "./kinds.js";
import type { SheetWords } from "./words/sheet-words.js";

interface TemplateInput {
  readonly template?: SheetTemplate;
  /** As `--sheet` names it. */
  readonly kind: string;
  /** That the hop or site of the sheet states. */
  readonly own: readonly OwnField[];
  /** Undefined: none is named, or it cannot be shown. */
  readonly logo?: Omit<Picture, "alt">;
  readonly words: SheetWords;
}

/** Cautions and errors stay, whatever a template says; without a template what is stated of one's own is shown all the same. */
export function templated(page: Page, input: TemplateInput): Page {
  const { template, kind, own, words } = input;
  const isOf = ({ of }: { readonly of?: string }) => of === undefined || of === kind;
  const added = withInstructions(
    page.sections,
    (template?.instructions ?? []).filter(isOf).map(({ text }) => text),
    words,
  );
  const fields = fieldsSection((template?.fields ?? []).filter(isOf), own, words);
  const sections = ordered(
    [...added, ...fields].filter(
      ({ id }) => staysOnSheets(id) || !(template?.leftOut ?? []).some(names(id, kind)),
    ),
    (template?.first ?? []).filter(isOf),
    kind,
  );
  const { paper } = template ?? {};
  const letterhead = template && letterheadOf(template, input);
  return {
    ...page,
    sections,
    ...(letterhead && { letterhead }),
    ...(paper && { paper: { ...page.paper, size: paper } }),
  };
}

/** Of several sections of one sort, as those of hops, the sort is named. */
function names(id: string, kind: string) {
  return ({ section, of }: SheetSection) =>
    (of === undefined || of === kind) && (id === section || id.startsWith(`${section}-`));
}

function ordered(
  sections: readonly Section[],
  first: readonly SheetSection[],
  kind: string,
): readonly Section[] {
  const place = ({ id }: Section) => {
    const at = first.findIndex(names(id, kind));
    return at < 0 ? first.length : at;
  };
  // Cautions and errors that come before the work stay before it.
  const after = sections.findIndex(({ id }) => !staysOnSheets(id));
  const lead = after < 0 ? sections.length : after;
  return [...sections.slice(0, lead), ...sections.slice(lead).toSorted((a, b) => place(a) - place(b))];
}

/** Among the steps of the sheet's own, before the last one, by which the site is left; as a list of their own where it has none. */
function withInstructions(
  sections: readonly Section[],
  lines: readonly string[],
  { templates }: SheetWords,
): readonly Section[] {
  if (lines.length === 0) return sections;
  const has = sections.some(({ id }) => id === ORDER);
  if (!has)
    return [
      ...sections,
      { id: "instructions", title: templates.instructions, blocks: [{ type: "list", items: lines }] },
    ];
  return sections.map((section) =>
    section.id === ORDER
      ? { ...section, blocks: section.blocks.map((block) => longer(block, lines)) }
      : section,
  );
}

const ORDER = "order";

function longer(block: Block, lines: readonly string[]): Block {
  if (block.type !== "table") return block;
  const { rows } = block;
  const more = lines.map((line) => ({ cells: ["", line, ""] }));
  const all = [...rows.slice(0, -1), ...more, ...rows.slice(-1)];
  return {
    ...block,
    rows: all.map((row, at) => ({ ...row, cells: [String(at + 1), ...row.cells.slice(1)] })),
  };
}

/** What is stated is shown as stated; a field of the template that nobody states is a box. */
function fieldsSection(
  asked: readonly OwnField[],
  own: readonly OwnField[],
  { templates }: SheetWords,
): readonly Section[] {
  const askedLabels = new Set(asked.map(({ label }) => label));
  const stated = (label: string) => own.filter((one) => one.label === label && one.value !== undefined);
  const facts: Fact[] = [];
  const boxes: FormField[] = [];
  for (const { label, value } of asked) {
    const found = value === undefined ? stated(label) : [{ label, value }];
    facts.push(...found.flatMap(shownField));
    if (found.length === 0) boxes.push({ label });
  }
  facts.push(...own.filter(({ label }) => !askedLabels.has(label)).flatMap(shownField));
  if (facts.length + boxes.length === 0) return [];
  return [
    {
      id: "own",
      title: templates.fields,
      blocks: [
        ...(facts.length > 0 ? [{ type: "facts", facts } as const] : []),
        ...(boxes.length > 0 ? [{ type: "form", fields: boxes } as const] : []),
      ],
    },
  ];
}

function shownField({ label, value, at }: OwnField): Fact[] {
  return value === undefined ? [] : [{ label: at === undefined ? label : `${label}, ${at}`, value }];
}

function letterheadOf(
  { company, head, foot, logo: named }: SheetTemplate,
  { logo, words }: TemplateInput,
): Page["letterhead"] {
  if (company === undefined && logo === undefined && head.length + foot.length === 0) return undefined;
  const alt = named?.alt ?? (company === undefined ? words.templates.logo : words.templates.logoOf(company));
  return {
    ...(company !== undefined && { name: company }),
    ...(logo && { logo: { ...logo, alt } }),
    head,
    foot,
  };
}
