/** The option by which a command is told its format, and what its help says of each. */
import { type Command, InvalidArgumentError, Option } from "commander";
import { FORMATS, type FormatCommand, hasFormats } from "./formats.js";

/** Of a report's formats those that are made without being asked for. */
const UNNAMED = FORMATS.report.filter(({ named }) => !named).map(({ name }) => name);

/** How a command calls it, where it is not `--format`. */
const ASKED: { readonly [C in FormatCommand]?: (names: readonly string[]) => Option } = {
  report: (names) =>
    new Option("--only <kinds>", `${names.join(", ")}, or several parted by a comma`)
      .argParser((text) => kindsIn(text, names))
      .default(UNNAMED, UNNAMED.join(",")),
};

export function addFormats(command: Command): void {
  const of = command.name();
  if (!hasFormats(of)) return;
  const formats: readonly { readonly name: string; readonly what: string }[] = FORMATS[of];
  const names = formats.map(({ name }) => name);
  const option =
    ASKED[of]?.(names) ?? new Option("--format <format>", "how to print").choices(names).default(names[0]);
  command.addOption(option);
  const width = Math.max(...names.map((name) => name.length));
  const lines = formats.map(({ name, what }) => `  ${name.padEnd(width)}  ${what}`);
  command.addHelpText("after", `\nFormats:\n${lines.join("\n")}`);
}

function kindsIn(text: string, names: readonly string[]): string[] {
  const asked = text.split(",").map((kind) => kind.trim());
  if (asked.some((kind) => !names.includes(kind)))
    throw new InvalidArgumentError(`a report is written as ${names.join(", ")} or ${names.join(",")}`);
  return [...new Set(asked)];
}
