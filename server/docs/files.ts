/** The generated files by their path from the repository's root. */
import { arrangementPages, arrangementsIndexPage } from "../../language/docs/arrangement-pages.js";
import { channelPlansPage } from "../../language/docs/channel-plans-page.js";
import { snippets, textMateGrammar } from "../../language/docs/colouring.js";
import { listsPage } from "../../language/docs/lists-page.js";
import { methodsPage } from "../../language/docs/methods-page.js";
import { propertiesPage } from "../../language/docs/properties-page.js";
import { rulePages, rulesIndexPage } from "../../language/docs/rule-pages.js";
import { formatsPage } from "./formats-page.js";
import { needsPage } from "./needs-page.js";

export function generatedFiles(): ReadonlyMap<string, string> {
  const files = new Map<string, string>([
    ["language/reference/properties.md", propertiesPage()],
    ["language/reference/rules.md", rulesIndexPage()],
    ["language/reference/methods.md", methodsPage()],
    ["language/reference/channel-plans.md", channelPlansPage()],
    ["language/reference/arrangements.md", arrangementsIndexPage()],
    ["language/reference/lists.md", listsPage()],
    ["language/reference/formats.md", formatsPage()],
    ["language/reference/needs.md", needsPage()],
    ["extension/syntaxes/hop.tmLanguage.json", textMateGrammar()],
    ["extension/snippets/hop.json", snippets()],
  ]);
  for (const [id, page] of rulePages()) files.set(`language/reference/rules/${id}.md`, page);
  for (const [file, content] of arrangementPages())
    files.set(`language/reference/arrangements/${file}`, content);
  return files;
}
