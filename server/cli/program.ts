/** The commands and their options. What a command does is loaded when it is called, so that none pays for another. */
import { Argument, Command, Option } from "commander";
import { CommandError } from "../command-error.js";
import { VERSION } from "../version.js";
import { safe } from "./print/safe.js";
import { count, onOption, severityOption, todayOption } from "./program-options.js";
import { addDiff, addHistory, addReport, addSheets } from "./program-papers.js";
import { addChannels, addDemands, addExplain, addProfile } from "./program-questions.js";

export function program(): Command {
  const root = new Command("hopwright")
    .description("Microwave hops as text: judged, explained, reported.")
    .version(VERSION)
    .exitOverride()
    .configureOutput({ outputError: (text, write) => write(inOneLine(text)) });
  for (const add of COMMANDS) add(root);
  // Formats bring what prints in them with them: a command that has none does not pay for them.
  root.hook("preSubcommand", async (_root, command) => {
    const { addFormats } = await import("./format-options.js");
    addFormats(command);
  });
  for (const [name, options] of Object.entries(ELSEWHERE)) {
    const command = root.commands.find((one) => one.name() === name)!;
    command.configureOutput({
      outputError: (text, write) => write(inOneLine(withWay(text, options))),
    });
  }
  root.showHelpAfterError("(hopwright --help lists the commands)");
  for (const command of root.commands)
    command.showHelpAfterError(`(hopwright ${command.name()} --help lists what it takes)`);
  return root;
}

function addCheck(root: Command): void {
  root
    .command("check")
    .description("judge the designs in a folder")
    .argument("[dir]", "folder of one or several designs", ".")
    .addOption(severityOption())
    .addOption(
      new Option(
        "--show <what>",
        "least severity that the text names, milder findings are counted only; remarks: all, and each remark on what figures rest on",
      )
        .choices(["error", "warning", "info", "remarks"])
        .default("info"),
    )
    .option(
      "--baseline <file>",
      "output of an earlier check --format json: only findings that are not in it make the exit status 1",
    )
    .option(
      "--without <what>",
      "judge what remains when this hop, all hops of this site, or those on this card (SITE/CHASSIS/SLOT) are gone",
    )
    .option("--fix", "first write the fixes that leave nothing to choose and change no decision, then judge")
    .option(
      "--dry-run",
      "with --fix: write nothing and print the change as a unified diff; exit status 1 when there is one",
    )
    .addOption(onOption())
    .addOption(
      new Option(
        "--state <what>",
        "built: what stands today, without what is planned; planned: what is planned alone; all: the past too",
      ).choices(["built", "planned", "all"]),
    )
    .option("--resolved", "with --format json: add the design with all names and defaults resolved")
    .addOption(todayOption())
    .option("--keep", "take results of hops from earlier runs, and keep them in your cache folder")
    .action(async (dir, options) => {
      const { check } = await import("./commands/check.js");
      const { on, state } = options;
      if (on !== undefined && state !== undefined)
        throw new CommandError("check --on judges one day, --state several; name one of them");
      await check(dir, { ...options, times: { on, state } });
    });
}

function addNew(root: Command): void {
  root
    .command("new")
    .description("begin a design: network, objectives, a catalogue to fill, a first site and hop as comments")
    .argument("<dir>", "folder to begin it in; made when missing")
    .option("--title <title>", "what the network is called; without it by the folder")
    .option("--terrain <path>", "folder or file of terrain heights")
    .option("--maps <path>", "folder with your copies of the ITU-R maps")
    .option("--rain <rate>", "rain rate exceeded in 0.01 % of the year, mm/h")
    .option("--logk <value>", "geoclimatic factor logK")
    .option("--dn75 <value>", "refractivity gradient dN75, N-units")
    .option("--k <value>", "median effective Earth radius factor")
    .addHelpText(
      "after",
      "\nWhat is not given is asked at a terminal, and else left open as a comment that says what it means.",
    )
    .action(async (dir, options) => {
      const { newDesign } = await import("./commands/new.js");
      process.exitCode = await newDesign(dir, options);
    });
}

function addImport(root: Command): void {
  root
    .command("import")
    .description("bring lists of sites, hops or transmissions into a design; shows what it would do")
    .argument("<file...>", "CSV, XLSX, GeoJSON, KML, KMZ or GPX")
    .requiredOption("--out <dir>", "folder of the design; begun when there is none")
    .option("--write", "write it: new files beside those that are there, changed facts in their place")
    .option("--map <file>", "JSON that says what columns hold")
    .addOption(
      new Option("--rows <kind>", "what a row is").choices(["sites", "hops", "transmissions", "ends"]),
    )
    .option("--epsg <code>", "system of eastings and northings that the list does not name", count)
    .option("--datum-as-wgs84", "take coordinates for WGS 84 whatever datum the list names")
    .option("--told <file>", "write everything that is told of rows as CSV")
    .addHelpText(
      "after",
      "\nExit status: 0 all rows are taken, 1 some are not, 2 a list cannot be read or a column is unclear.",
    )
    .action(async (files, options) => {
      const { importFiles } = await import("./commands/import.js");
      process.exitCode = await importFiles(files, options);
    });
}

function addList(root: Command): void {
  root
    .command("list")
    .description("print what a design knows as lists, for a spreadsheet, a map or a program")
    .argument(
      "<what>",
      "sites, hops, ends, parts, ports, channels, line-up, calibration, findings, several of them parted by commas, or all",
    )
    .argument("[dir]", "folder of one design", ".")
    .option("--out <file>", "file to write instead of printing; never one that is there")
    .option("--site <site>", "rows of this site alone, in lists that name sites")
    .addOption(onOption())
    .addOption(todayOption())
    .action(async (what, dir, options) => {
      const { list } = await import("./commands/list.js");
      process.exitCode = await list(what, dir, options);
    });
}

function addFormat(root: Command): void {
  root
    .command("format")
    .description("bring files into the one layout; prints the files that change")
    .argument("<path...>", "files or folders")
    .option("--check", "change nothing; exit status 1 when a file would change")
    .action(async (paths, options) => {
      const { format } = await import("./commands/format.js");
      process.exitCode = await format(paths, options);
    });
}

function addSchema(root: Command): void {
  root
    .command("schema")
    .description("print the JSON Schema of the output")
    .addArgument(
      new Argument(
        "[output]",
        "of channels, check, demands, diff, explain, history or list with --format json, of channels --open (open-channels), of what explain teaches (lesson), or of the resolved design in check's",
      )
        .choices([
          "channels",
          "check",
          "demands",
          "design",
          "diff",
          "explain",
          "history",
          "lesson",
          "list",
          "open-channels",
        ])
        .default("check"),
    )
    .action(async (output) => {
      const { schema } = await import("./commands/schema.js");
      await schema(output);
    });
}

function addLsp(root: Command): void {
  root
    .command("lsp")
    .description("run the language server for an editor")
    .addOption(new Option("--stdio", "speak over standard input and output").conflicts("nodeIpc"))
    // How our own extension starts it; the protocol's library reads both from the command line itself.
    .addOption(new Option("--node-ipc").hideHelp())
    .addOption(new Option("--clientProcessId <pid>").hideHelp())
    .action(async ({ stdio, nodeIpc }) => {
      if (!stdio && !nodeIpc) throw new CommandError("lsp: say how to speak to the editor: --stdio");
      const { lsp } = await import("./commands/lsp.js");
      lsp({ stdio: stdio === true });
    });
}

/** In the order in which the help lists them. */
const COMMANDS: readonly ((root: Command) => void)[] = [
  addCheck,
  addNew,
  addImport,
  addList,
  addReport,
  addSheets,
  addDiff,
  addHistory,
  addProfile,
  addChannels,
  addDemands,
  addExplain,
  addFormat,
  addSchema,
  addLsp,
];

/** Options that a command has not, as people try them, and what has them. */
const ELSEWHERE: Readonly<Record<string, Readonly<Record<string, string>>>> = {
  check: {
    "--hop":
      "the design is judged as a whole, since hops judge each other: `hopwright explain --hop HOP` tells one hop's figures, `hopwright report --hop HOP` makes its page, `hopwright check --format lines` has a line a finding to look through",
    "--site": "`hopwright explain --site SITE` tells one site's equipment",
  },
};

function withWay(error: string, options: Readonly<Record<string, string>>): string {
  const [, option = ""] = /^error: unknown option '(--[\w-]+)/.exec(error) ?? [];
  const way = Object.hasOwn(options, option) ? options[option] : undefined;
  return way === undefined ? error : `${error.split("\n", 1)[0]}: ${way}\n`;
}

/** `error: --format pdf: choose from text, json`, whatever the library calls options and arguments. */
function inOneLine(error: string): string {
  const wrong =
    /^error: (?:option '(?:-\w, )?(--[\w-]+).*?' argument|command-argument value) '(.*)' is invalid(?: for argument '(.*)')?\. (.*)\n$/s.exec(
      error,
    );
  if (!wrong) {
    const [guess = ""] = /\n\(Did you mean [^\n]*\)\n$/.exec(error) ?? [];
    return `${safe(error.slice(0, guess === "" ? undefined : -guess.length).trimEnd())}${guess || "\n"}`;
  }
  const [, option, value = "", argument, reason = ""] = wrong;
  const remedy = reason.replace(/^Allowed choices are (.*)\.$/, "choose from $1");
  return `error: ${option ?? argument} ${safe(value)}: ${remedy}\n`;
}
