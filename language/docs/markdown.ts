/** Small pieces of Markdown that several generated pages are made of. */

export function table(head: readonly string[], rows: readonly (readonly string[])[]): string {
  return [head, head.map(() => "---"), ...rows].map(row).join("\n");
}

function row(cells: readonly string[]): string {
  return `| ${cells.map((cell) => cell.replaceAll("|", "\\|")).join(" | ")} |`;
}

export function hopBlock(text: string): string {
  return `\`\`\`hop\n${text}\n\`\`\``;
}

/** The anchor that a heading gets where Markdown is shown: letters, digits and dashes. */
function anchor(heading: string): string {
  return heading
    .toLowerCase()
    .replace(/[^\p{L}\p{N} _-]/gu, "")
    .replaceAll(" ", "-");
}

/** A link to a heading of the same page. */
export function toHeading(text: string, heading: string): string {
  return `[${text}](#${anchor(heading)})`;
}
