/** Commands that write pages, and those that tell what a change does. */
import { type Command, Option } from "commander";
import { count, onOption, paperOption, todayOption } from "./program-options.js";

export function addSheets(root: Command): void {
  root
    .command("sheets")
    .description(
      "write papers for people outside: for building, line-up, acceptance, the licensing desk, the buyer",
    )
    .argument("[dir]", "folder of one or several designs", ".")
    .requiredOption("--out <dir>", "folder to write into; made when missing")
    .option(
      "--sheet <kinds...>",
      "line-up, acceptance, installation, licences, frequencies, parts, book; left out: all",
    )
    .option("--hop <hop>", "sheets of this hop alone")
    .option("--site <site>", "sheets of this site alone")
    .option("--language <language>", "en or de; left out: that of the template, else en")
    .option("--template <name>", "the template of the design that they are made by; left out: the only one")
    .addOption(paperOption())
    .addOption(onOption())
    .addOption(todayOption())
    .addHelpText(
      "after",
      "\nSheets of earlier runs into the same folder that are no more are taken away. Exit status as of `report`.",
    )
    .action(async (dir, { sheet = [], ...options }) => {
      const { sheets } = await import("./commands/sheets.js");
      process.exitCode = await sheets(dir, { sheet, ...options });
    });
}

export function addReport(root: Command): void {
  root
    .command("report")
    .description("write an overview and a page for each hop and each site")
    .argument("[dir]", "folder of one or several designs", ".")
    .requiredOption("--out <dir>", "folder to write into; made when missing")
    .option("--hop <hop>", "this hop's page alone")
    .addOption(paperOption())
    .addOption(onOption())
    .addOption(todayOption())
    .action(async (dir, options) => {
      const { report } = await import("./commands/report.js");
      process.exitCode = await report(dir, options);
    });
}

export function addDiff(root: Command): void {
  root
    .command("diff")
    .description("tell what a change does to the network: a revision against the work tree, or two revisions")
    .argument("<rev...>", "REV [REV] [DIR]; A..B is two revisions, A...B is B since it left A")
    .option("--dir <dir>", "folder of the design")
    .addOption(
      new Option(
        "--fail-on <what>",
        "exit status 1 when a figure or finding got worse, when there are new findings, or never",
      )
        .choices(["worse", "findings", "never"])
        .default("worse"),
    )
    .addOption(onOption())
    .addOption(todayOption())
    .action(async (asked, options) => {
      const { diff } = await import("./commands/diff.js");
      await diff(asked, options);
    });
}

export function addHistory(root: Command): void {
  root
    .command("history")
    .description(
      "list the commits that changed a hop's decisions, with errors, clearance, margin and availability at each",
    )
    .argument("<hop>", "name of the hop")
    .argument("[dir]", "folder of the design", ".")
    .option("--rev <rev>", "the newest commit to look at; HEAD takes the work tree in", "HEAD")
    .option("--limit <count>", "entries at most", count, 20)
    .addOption(todayOption())
    .action(async (hop, dir, options) => {
      const { history } = await import("./commands/history.js");
      await history(hop, dir, options);
    });
}
