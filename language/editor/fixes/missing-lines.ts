/** The lines that a hop still lacks, with ? where something has to be chosen. */
import type { FactCode } from "../../../shared/evaluate/account/lack.js";
import { missingFacts } from "../../../shared/evaluate/missing.js";
import { factNamed } from "../../facts/fact.js";
import type { TextEdit } from "../text-range.js";
import { acceptingInText, type BlockInText, endInText, hopInText, insertLines } from "./edits.js";
import type { QuickFix, ToMend } from "./fix.js";
import { decision } from "./mounting.js";

/** What is written for a fact that is missing. */
const LINES: Readonly<Partial<Record<FactCode, { readonly name: string; readonly line: string }>>> = {
  radio: { name: "radio", line: "radio ?" },
  mode: { name: "mode", line: "mode ? ?" },
  polarization: { name: "polarization", line: "polarization ?" },
  "transmit-frequency": { name: "transmits", line: "transmits ?" },
  antenna: { name: "antenna", line: "antenna ? at ?" },
  position: { name: "at", line: "at ?" },
};

export function addMissingLines(toMend: ToMend): readonly QuickFix[] {
  const { model, judged } = toMend;
  const hop = judged && hopInText(model, judged.hop.name);
  if (!hop) return [];
  const edits: (TextEdit | undefined)[] = [];
  const added = new Map<
    string,
    { readonly block: BlockInText; readonly rows: { name: string; line: string }[] }
  >();
  for (const { fact } of missingFacts(judged.hop)) {
    const block = blockOf(toMend, hop, fact.site, fact.code);
    if (!block) return [];
    const antenna = factNamed(block.fact.facts, "antenna");
    if (fact.code === "antenna-height") {
      if (!antenna) continue;
      const { end } = antenna.statement;
      edits.push({ file: block.file, start: end, end, newText: " at ?" });
      continue;
    }
    const row = LINES[fact.code];
    if (!row || factNamed(block.fact.facts, row.name)) return [];
    const key = `${block.file} ${block.fact.statement.start}`;
    const known = added.get(key) ?? { block, rows: [] };
    known.rows.push(row);
    added.set(key, known);
  }
  // Lines that go to one place are one edit.
  for (const { block, rows } of added.values())
    for (const row of Map.groupBy(rows, ({ name }) => placeOf(toMend, block, name)).values())
      edits.push(
        insertLines(
          model,
          block,
          row[0]!.name,
          row.map(({ line }) => line),
        ),
      );
  if (edits.length === 0 || edits.some((edit) => edit === undefined)) return [];
  return [
    decision(toMend, "Add the lines that are missing (write what each ? stands for)", edits as TextEdit[]),
  ];
}

function placeOf({ model }: ToMend, block: BlockInText, name: string): number | undefined {
  return insertLines(model, block, name, [""])?.start;
}

function blockOf(
  { model, judged }: ToMend,
  hop: BlockInText,
  site: string | undefined,
  fact: FactCode,
): BlockInText | undefined {
  if (site === undefined) return hop;
  return fact === "position"
    ? acceptingInText(model, `site ${site}`)
    : endInText(model, judged!.hop.name, site);
}
