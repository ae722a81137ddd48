import { type Inline, spansOf } from "../../shared/report/document/document.js";

export function plainText(inline: Inline): string {
  return spansOf(inline)
    .map((span) => (typeof span === "string" ? span : span.text))
    .join("");
}
