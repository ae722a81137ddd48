/** Commands that answer a question about one design: a path, channels, demands, where a figure is from. */
import type { Command } from "commander";
import { CommandError } from "../command-error.js";
import { onOption, todayOption } from "./program-options.js";

export function addProfile(root: Command): void {
  root
    .command("profile")
    .description("show the path of a hop from the side")
    .argument("<hop>", "name of the hop")
    .argument("[dir]", "folder of the design", ".")
    .addOption(onOption())
    .addOption(todayOption())
    .action(async (hop, dir, options) => {
      const { profile } = await import("./commands/profile.js");
      await profile(hop, dir, options);
    });
}

export function addChannels(root: Command): void {
  root
    .command("channels")
    .description(
      "try every channel of a hop's plan: what it suffers there and does to others, the best first",
    )
    .argument("[hop]", "name of the hop; with --open the folder of the design")
    .argument("[dir]", "folder of the design", ".")
    .option(
      "--open",
      "propose number, polarization and half for all hops that lack them: fewest receivers beyond what is allowed, then least spectrum",
    )
    .option("--write", "with --open: write what is proposed into the design, all of it or nothing")
    .addOption(onOption())
    .addOption(todayOption())
    .addHelpText(
      "after",
      "\nExit status with --open: 0 all that is open has a proposal and no receiver passes what it is allowed, 1 not so.",
    )
    .action(async (hop: string | undefined, dir: string, options) => {
      if (options.open) {
        if (hop !== undefined && dir !== ".")
          throw new CommandError(
            "channels --open takes the folder alone: it proposes for all hops that lack something",
          );
        const { openChannels } = await import("./commands/open-channels.js");
        process.exitCode = await openChannels(hop ?? dir, options);
        return;
      }
      if (options.write)
        throw new CommandError(
          "channels --write goes with --open: say which hops by leaving their number out",
        );
      if (hop === undefined)
        throw new CommandError("channels: name the hop, or say --open for all hops whose channel is open");
      const { channels } = await import("./commands/channels.js");
      await channels(hop, dir, options);
    });
}

export function addDemands(root: Command): void {
  root
    .command("demands")
    .description(
      "tell what the network is to carry: routes, rates, availability and latency end to end, loads of hops, and what fails when something fails",
    )
    .argument("[dir]", "folder of one or several designs", ".")
    .option("--demand <demand>", "this demand alone, hop by hop, with each failure that touches it")
    .addOption(onOption())
    .addOption(todayOption())
    .addHelpText("after", "\nExit status: 0 no demand has an error, 1 one has, 2 something cannot be read.")
    .action(async (dir, options) => {
      const { demands } = await import("./commands/demands.js");
      await demands(dir, options);
    });
}

export function addExplain(root: Command): void {
  root
    .command("explain")
    .description(
      "explain a rule, a channel plan, an arrangement, a part of the catalogue, or every figure of a hop or of a site's equipment; without any, list the rules",
    )
    .argument(
      "[what...]",
      "identifier of a rule, or a plan as a hop names it (F.595, F.595 / 55 MHz); beside --hop, --site and the parts the folder of the design",
    )
    .option("--hop <hop>", "the hop whose figures are explained, with the cables and supply of its units")
    .option(
      "--site <site>",
      "the site whose equipment is explained: power, battery, heat, wind, weight, slots and ports",
    )
    .option(
      "--arrangement <words>",
      'an arrangement as the language writes it ("2+0 xpic"): what each end needs, what it protects and costs',
    )
    .option(
      "--card <name>",
      "a card of the design's catalogue: what it is, where it fits, which rules judge it",
    )
    .option("--radio <name>", "the same of a radio")
    .option("--antenna <name>", "the same of an antenna")
    .option("--coupler <name>", "the same of a coupler")
    .option("--chassis <name>", "the same of a chassis")
    .option("--cable <name>", "the same of a cable")
    .option("--feeder <name>", "the same of a feeder")
    .option("--dir <dir>", "folder of a design, for the plans that it declares itself")
    .addOption(onOption())
    .addOption(todayOption())
    .action(async (what: readonly string[], options) => {
      const { explain } = await import("./commands/explain.js");
      await explain(what, options);
    });
}
