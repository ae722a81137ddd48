/** The text with a line feed for each carriage return that stands alone, as old editors end lines; offsets stay. */
export function withLineFeeds(text: string): string {
  return text.includes("\r") ? text.replace(/\r(?!\n)/g, "\n") : text;
}
