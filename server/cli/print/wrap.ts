/** Text in lines of at most `width` characters, each with an indent. Words longer than that stand alone. */
export function wrapped(text: string, width: number, indent = ""): string {
  const lines: string[] = [];
  let line = "";
  for (const word of text.split(/\s+/)) {
    if (line !== "" && line.length + 1 + word.length > width) {
      lines.push(line);
      line = word;
    } else line = line === "" ? word : `${line} ${word}`;
  }
  lines.push(line);
  return lines.map((one) => `${indent}${one}`).join("\n");
}
