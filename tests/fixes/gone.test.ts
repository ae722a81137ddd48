/** A finding may be asked about that an edit has overtaken: what it stands on has another name, or is gone. */
import { expect, test } from "vitest";
import { findingFixes } from "../../language/editor/quick-fixes.js";
import { DesignModel } from "../../language/model/design-model.js";
import { readSource } from "../../language/model/source-file.js";
import { EXAMPLE_PREAMBLE } from "../../shared/rules/example-preamble.js";
import { RULES } from "../../shared/rules/index.js";
import { judge } from "../language/editor/judged.js";
import { exampleGround, exampleInterference } from "../rules/example-design.js";
import { RULE_CASES } from "./rule-cases.js";

const FILE = "/example/example.hop";

function modelOf(text: string): DesignModel {
  const model = new DesignModel("/example");
  model.setFile(readSource(FILE, text));
  return model;
}

const EMPTY = () => "";

/** What the meantime may have made of a text. */
const EDITS: Readonly<Record<string, (text: string) => string>> = {
  "the file is empty": EMPTY,
  "the design has sites and a catalogue alone": () => EXAMPLE_PREAMBLE,
  "hops have other names": (text) => text.replaceAll(/^hop /gm, "hop X-"),
  "sites have other names": (text) => text.replaceAll(/\b(KELD|TARN|MOSS|FELL)\b(?!-)/g, "$1X"),
  "ends say nothing": (text) => text.replaceAll(/^( {2}(?:KELD|TARN|MOSS|FELL) \{)[^}]*\}/gm, "$1\n  }"),
  "entries have other names": (text) =>
    text.replaceAll(/\b(R18|DISH60-18|H18-E|O18|COPSE|SPINNEY|HEDGE|BOX|P18)\b/g, "$1X"),
};

/** Texts with a finding of each rule, and those findings. */
const ASKED = [...RULES.values()].flatMap((rule) =>
  [`${EXAMPLE_PREAMBLE}\n${rule.bad}`, ...(RULE_CASES[rule.id] ?? [])].map((text) => {
    const { findings } = judge(modelOf(text), exampleGround, exampleInterference);
    return { text, findings, own: findings.filter((one) => one.rule === rule.id) };
  }),
);

test.each(Object.entries(EDITS))(
  "no fix of any rule fails, or writes beside the text, where %s",
  async (_, edit) => {
    let offered = 0;
    for (const { text, findings, own } of ASKED) {
      const edited = edit(text);
      const model = modelOf(edited);
      const { results, interference } = judge(model, exampleGround, exampleInterference);
      for (const finding of own) {
        const hop = /^hop (.*?)( \/ |$)/.exec(finding.at)?.[1];
        const judged = hop === undefined ? undefined : results(hop);
        // Whatever is tried helps, so that nothing that would be offered is left out.
        const helps = () => ({ findings: [] });
        const toMend = { model, finding, judged, before: findings, interference };
        for (const { edits, title } of await findingFixes(toMend, helps)) {
          offered++;
          for (const { start, end } of edits)
            expect(0 <= start && start <= end && end <= edited.length, `${finding.rule}: ${title}`).toBe(
              true,
            );
        }
      }
    }
    // Some stand on what is still there, but for the first.
    expect(offered > 0).toBe(edit !== EMPTY);
  },
);
