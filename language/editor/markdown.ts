/** Texts of the design may hold what markdown would take for a table, a link or a tag. */
export function escapeMarkdown(text: string): string {
  return text.replace(/[\\`*_|<>[\]]/g, "\\$&").replace(/\r?\n/g, " ");
}
