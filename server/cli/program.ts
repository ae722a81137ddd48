/** The commands and their options. What a command does is loaded when it is called, so that none pays for another. */
import { Command, InvalidArgumentError, Option } from "commander";
import { VERSION } from "./version.js";

export function program(): Command {
  const root = new Command("hopwright")
    .description("Microwave hops as text: judged, explained, reported.")
    .version(VERSION)
    .exitOverride()
    .showHelpAfterError("(hopwright --help lists the commands)");
  root
    .command("check")
    .description("judge the designs in a folder")
    .argument("[dir]", "folder of one or several designs", ".")
    .addOption(new Option("--format <format>", "how to print").choices(["text", "json"]).default("text"))
    .addOption(severityOption())
    .option("--resolved", "with --format json: add the design with all names and defaults resolved")
    .addOption(todayOption())
    .action(async (dir, options) => {
      const { check } = await import("./commands/check.js");
      await check(dir, options);
    });
  root
    .command("report")
    .description("write an overview and a page for each hop")
    .argument("[dir]", "folder of one or several designs", ".")
    .requiredOption("--out <dir>", "folder to write into; made when missing")
    .option("--only <kinds>", "html, markdown, or both parted by a comma", kinds, ["html", "markdown"])
    .option("--hop <hop>", "this hop's page alone")
    .addOption(todayOption())
    .action(async (dir, options) => {
      const { report } = await import("./commands/report.js");
      process.exitCode = await report(dir, options);
    });
  return root;
}

const KINDS = ["html", "markdown"];

function kinds(text: string): string[] {
  const asked = text.split(",").map((kind) => kind.trim());
  const wrong = asked.find((kind) => !KINDS.includes(kind));
  if (wrong !== undefined) throw new InvalidArgumentError(`There is no report of kind "${wrong}"; known are ${KINDS.join(", ")}.`);
  return [...new Set(asked)];
}

function severityOption(): Option {
  return new Option("--severity <severity>", "least severity that makes the exit status 1; all are printed")
    .choices(["error", "warning", "info"])
    .default("error");
}

/** For tests and for looking ahead: the date that acceptances are held against. */
function todayOption(): Option {
  return new Option("--today <date>").default(today()).hideHelp();
}

function today(): string {
  const now = new Date();
  const two = (value: number) => String(value).padStart(2, "0");
  return `${now.getFullYear()}-${two(now.getMonth() + 1)}-${two(now.getDate())}`;
}
