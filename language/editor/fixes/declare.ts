/** Names that nothing bears: declared with the lines that their kind needs, each still to be filled in. */
import { kindRow } from "../../schema/kinds.js";
import { insertLine } from "./edits.js";
import type { QuickFix, TextToMend } from "./fix.js";

export function declareName({ model, file, problem }: TextToMend): readonly QuickFix[] {
  const reference = file.references.find(({ start }) => start === problem.start);
  const lines = reference && kindRow(reference.kind).begins;
  if (!reference || !lines) return [];
  const { kind, name } = reference;
  const title = `Declare ${kind} ${name} (write what each ? stands for)`;
  const decided = { title, rule: problem.rule, changesDecision: true };
  const declaration = (margin: string) =>
    lines.length === 0
      ? `${kind} ${name} {\n${margin}}`
      : `${kind} ${name} {\n${lines.map((line) => `${margin}  ${line}\n`).join("")}${margin}}`;
  if (kind === "objective") {
    const network = model.declarations("network")[0];
    const block = network && { file: network.file, fact: network.fact, context: "network" as const };
    const edit = block && insertLine(model, block, kind, declaration("  "));
    return edit ? [{ ...decided, edits: [edit] }] : [];
  }
  const { text, path } = file;
  const behind = file.declarations.findLast((one) => one.kind === kind)?.fact.statement.end;
  const at = behind ?? text.trimEnd().length;
  const newText = `\n\n${declaration("")}`;
  return [{ ...decided, edits: [{ file: path, start: at, end: at, newText }] }];
}

/** What can be installed in place of a template: the entries made like it. */
export function entriesOfTemplate({ model, file, problem }: TextToMend): readonly QuickFix[] {
  const reference = file.references.find(({ start }) => start === problem.start);
  if (!reference) return [];
  const { kind, name, start, end } = reference;
  return model
    .names(kind)
    .filter((other) => {
      const entry = model.declarations(`${kind} ${other}`)[0];
      const like = entry?.fact.args.find(({ spec }) => spec.label === "like")?.value;
      return !entry?.template && like?.type === "reference" && like.name === name;
    })
    .slice(0, MOST)
    .map((other) => ({
      title: `Write ${other}, which is made like ${name}`,
      edits: [{ file: file.path, start, end, newText: other }],
      rule: problem.rule,
      changesDecision: true,
    }));
}

const MOST = 6;
