/** Words that may begin a statement: the properties of the block, and sites as the ends of a hop. */

import { factNamed, wordOf } from "../facts/fact.js";
import { declaredName } from "../model/source-file.js";
import { alternatives, propertiesOf } from "../schema/index.js";
import { INHERITING_KINDS } from "../schema/kinds.js";
import type { Property } from "../schema/types.js";
import { modesSnippet } from "./complete-modes.js";
import { titleOf } from "./kinds-shown.js";
import { propertyText } from "./property-text.js";
import type { Proposal } from "./proposal.js";
import { type Scene, siteNamesOfEnds } from "./scene.js";
import { lineSnippet } from "./snippet.js";

export function statementItems(scene: Scene): readonly Proposal[] {
  const { context, before } = scene.caret;
  if (before.length > 0)
    return propertiesOf(context)
      .filter(({ name }) => INHERITING_KINDS.has(name))
      .map((one) => propertyItem(one, scene));
  const items = open(scene).map((property) => propertyItem(property, scene));
  if (context === "file") items.push(TEMPLATE);
  if (context === "hop") items.push(...endItems(scene));
  return items;
}

/** Two answers to one question: stating one closes the other. */
const ALTERNATIVES: Readonly<Record<string, string>> = { mode: "modes", modes: "mode" };

/** Properties not given yet in this block, and repeatable ones, in canonical order. */
function open({ caret }: Scene): readonly Property[] {
  const given = new Set(caret.siblings.map((fact) => fact.property.name));
  return propertiesOf(caret.context).filter((property) => {
    const declares = property.args.some((arg) => alternatives(arg)[0]?.type === "name");
    if (property.repeatable || declares || caret.context === "file") return true;
    const other = caret.context.endsWith("hop") ? ALTERNATIVES[property.name] : undefined;
    return !given.has(property.name) && (other === undefined || !given.has(other));
  });
}

function propertyItem(property: Property, scene: Scene): Proposal {
  const { context } = scene.caret;
  return {
    label: property.name,
    kind: "property",
    insertText: modesSnippet(property, scene) ?? lineSnippet(property, context),
    snippet: true,
    detail: firstSentence(property.meaning),
    documentation: propertyText(property),
    rank: property.repeatable ? 1 : 0,
  };
}

/** A full stop inside a name or a number ends nothing. */
function firstSentence(text: string): string {
  return text.split(/\.(?=\s|$)/)[0]!;
}

const TEMPLATE: Proposal = {
  label: "template",
  kind: "property",
  insertText: "template ",
  detail: `a ${[...INHERITING_KINDS].join(", ")} that can only be inherited`,
  rank: 3,
};

/** Sites that are not an end yet; those that the hop's name speaks of come before everything else. */
function endItems(scene: Scene): readonly Proposal[] {
  const { model, caret } = scene;
  const ends = siteNamesOfEnds(caret.siblings);
  if (ends.length >= 2) return [];
  const hop = caret.enclosing.find((fact) => fact.context === "hop");
  const named = (hop && declaredName(hop)) ?? "";
  const half = otherHalf(scene) ?? `\${3|high,low|}`;
  return model
    .names("site")
    .filter((site) => !ends.includes(site))
    .map((site) => ({
      label: site,
      kind: "name",
      insertText: `${site} {\n  antenna $1 at \${2:20} m\n  transmits ${half}\n}`,
      snippet: true,
      detail: titleOf(model, "site", site) ?? "end of the hop",
      rank: named.includes(site) ? -1 : 2,
    }));
}

/** One end transmits high, the other low: the second one's half follows from the first's. */
function otherHalf({ caret }: Scene): string | undefined {
  const halves = caret.siblings.flatMap((end) => wordOf(factNamed(end.facts, "transmits"), "value") ?? []);
  return halves[0] === "high" ? "low" : halves[0] === "low" ? "high" : undefined;
}
