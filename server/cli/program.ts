/** The commands and their options. What a command does is loaded when it is called, so that none pays for another. */
import { Command, Option } from "commander";
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
  return root;
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
