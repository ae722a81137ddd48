/** What the commands print in, made from the table of formats. */
import { table } from "../../language/docs/markdown.js";
import { FORMATS, type FormatCommand } from "../cli/formats.js";

const FIRST = "The first is taken where none is named.";

const INTRO: Readonly<Record<FormatCommand, string>> = {
  check: `\`hopwright check --format FORMAT\`. ${FIRST}`,
  list: `\`hopwright list LISTS --format FORMAT\`. ${FIRST}`,
  report:
    "`hopwright report --only FORMAT`, or several parted by a comma. Without it all of them are written.",
  sheets: `\`hopwright sheets --format FORMAT\`. ${FIRST}`,
  diff: `\`hopwright diff REV --format FORMAT\`. ${FIRST}`,
  history: `\`hopwright history HOP --format FORMAT\`. ${FIRST}`,
  profile: `\`hopwright profile HOP --format FORMAT\`. ${FIRST}`,
  channels: `\`hopwright channels HOP --format FORMAT\`, \`hopwright channels --open --format FORMAT\`. ${FIRST}`,
  demands: `\`hopwright demands --format FORMAT\`. ${FIRST}`,
  explain: `\`hopwright explain --hop HOP --format FORMAT\`. ${FIRST}`,
};

export function formatsPage(): string {
  const sections = Object.entries(FORMATS).flatMap(([command, formats]) => [
    `## ${command}`,
    INTRO[command as FormatCommand],
    table(
      ["format", "for"],
      formats.map(({ name, what }) => [`\`${name}\``, what]),
    ),
  ]);
  return `${[HEAD, ...sections].join("\n\n")}\n`;
}

const HEAD = `# Formats

Made from the table of formats (server/cli/formats.ts); do not edit by hand.

What \`--format json\` of check, demands, diff, explain, history and list holds is described by \`hopwright schema\`.`;
