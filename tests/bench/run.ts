/**
 * What the product costs, from a cold check to the time between a key and its diagnostics, on generated
 * networks over real raster tiles; printed as Markdown. Run by `npm run bench`, which builds first.
 *
 *     npm run bench                          100, 1,000 and 10,000 hops; some minutes
 *     npm run bench -- --quick               100 and 1,000 hops
 *     npm run bench -- --compare             beside bounds and what was recorded last; exits 1 when something got a fifth slower
 *     npm run bench -- --record              records what was measured in tests/bench/recorded.json
 *     npm run bench -- phases check edits    some of the parts: phases, check, diff, edits, far, interference, demands, channels, parts
 */
import { spawnSync } from "node:child_process";
import { cpus, loadavg, totalmem } from "node:os";
import { join } from "node:path";
import { build } from "esbuild";
import { channelsOf, channelsTable } from "./channels.js";
import { type DemandFigures, demandsOf } from "./demands.js";
import { diffRuns } from "./differences.js";
import { farReachingEdits, heightEdits } from "./edits.js";
import { type InterferenceFigures, interferenceOf } from "./interference.js";
import {
  type BenchFigure,
  checkFigures,
  demandsJudged,
  diffFigures,
  editFigures,
  interferenceJudged,
  judged,
  judgedTable,
  RECORDED,
  readRecorded,
  record,
  yardstick,
} from "./judge.js";
import { withDemands } from "./network/demands.js";
import { writeTiles } from "./network/landscape.js";
import {
  areaDegOf,
  FULL_AREA_DEG,
  hopsAlone,
  inOneFile,
  type NetworkText,
  networkText,
  withUnknownNames,
  writeNetwork,
} from "./network/network.js";
import { OTHERS_STATEMENT, othersText } from "./network/others.js";
import { type Phases, phasesOf } from "./phases.js";
import { startNode } from "./process.js";
import {
  type ColdCheck,
  coldCheckTable,
  demandsTable,
  diffTable,
  editsTable,
  interferenceTable,
  type NamedEdits,
  phasesTable,
  quantile,
  serverTable,
} from "./report.js";

const CACHE = join(process.cwd(), ".cache/bench");
const COMMAND = "dist/hopwright.cjs";
const SERVER = COMMAND;
const COLD_RUNS = 3;
const MOST_OPEN = 1000;

const [first, ...rest] = process.argv.slice(2);
// A part that must have a process of its own starts this file again with its name.
if (first === "phases-of") console.log(JSON.stringify(await phasesOf(rest[0]!)));
else if (first === "demands-of") console.log(JSON.stringify(await demandsOf(rest[0]!)));
else if (first === "interference-of") console.log(JSON.stringify(await interferenceOf(rest[0]!)));
else await run(process.argv.slice(2));

async function run(asked: readonly string[]): Promise<void> {
  const quick = asked.includes("--quick");
  const parts = asked.filter((one) => !one.startsWith("--"));
  const wants = (part: string) => parts.length === 0 || parts.includes(part);
  const sizes = quick ? [100, 1000] : [100, 1000, 10_000];
  const largest = sizes.at(-1)!;

  console.log(`# Bench\n\n${machine()}\n`);
  const yardstickMs = yardstick();
  const figures: BenchFigure[] = [];
  writeTiles(join(CACHE, "terrain"), quick ? 1 : FULL_AREA_DEG);
  const networks = new Map(sizes.map((hops) => [hops, networkText(hops, "../terrain")]));
  for (const [hops, files] of networks) writeNetwork(folderOf(String(hops)), files);

  if (wants("phases")) {
    section("A check taken apart", "One process a size, cold; parse holds the start of the parser.");
    console.log(phasesTable(await inTurn(sizes, (hops) => phases(folderOf(String(hops))))));
  }
  if (wants("check")) {
    section(
      "`hopwright check`, cold",
      `The built program, process start included; median of ${COLD_RUNS}. Alone: the network states that no transmitter ` +
        "further away than 1 km is looked at.",
    );
    for (const [hops, files] of networks) writeNetwork(folderOf(`alone-${hops}`), hopsAlone(files));
    const both = sizes.flatMap((hops) => [true, false].map((isAlone) => ({ hops, isAlone })));
    const checks = await inTurn(both, coldCheck);
    figures.push(...checks.flatMap(checkFigures));
    console.log(coldCheckTable(checks));
  }
  if (wants("diff")) {
    section("`hopwright diff`, cold", `The built program on ${largest} hops in a repository of git.`);
    const runs = await diffRuns(COMMAND, folderOf("diff"), networks.get(largest)!);
    if (!quick) figures.push(...runs.flatMap(diffFigures));
    console.log(diffTable(runs));
  }
  const edits: NamedEdits[] = [];
  if (wants("edits"))
    edits.push(...(await inTurn(sizes, (hops) => ordinaryEdits(hops, networks.get(hops)!))));
  if (wants("far")) edits.push(...(await cruelEdits(largest, networks.get(largest)!)));
  figures.push(...edits.flatMap(editFigures));
  if (edits.length > 0) {
    section(
      "From an edit to its diagnostics",
      "The built server, driven as an editor does. Shown: the file that was edited, or the one named, has the " +
        "diagnostics that the edit means. Settled: every hop that it concerns is evaluated and published.",
    );
    console.log(editsTable(edits));
    section("The server", "");
    console.log(serverTable(edits));
  }
  if (wants("interference")) {
    section(
      "Interference",
      "A network among twice as many transmissions of others, all pairs of a random and dense network; the hops by " +
        "themselves are evaluated before. All pairs: a sample of receivers against every sender in reach of their " +
        "filters, scaled. Edits: until all changed findings are there, the rest that the server takes not counted.",
    );
    const halves = [largest / 2, largest];
    const found = await inTurn(halves, (hops) => interferenceAmong(hops, networks));
    figures.push(...found.flatMap(interferenceJudged));
    console.log(interferenceTable(found));
  }
  if (wants("demands")) {
    section(
      "Demands",
      "Half as many demands as hops, most to where traffic leaves, one of ten with a second route; every failure of one " +
        "hop or site. The hops by themselves are evaluated before. Edits: a height of one hop; the demands alone, and " +
        "until every finding of the network is there.",
    );
    const found = await demandsAmong(largest, networks.get(largest)!);
    figures.push(...demandsJudged(found));
    console.log(demandsTable([found]));
  }
  if (wants("channels")) {
    section("`hopwright channels --open`", "Every hop of the network open: number, polarization and half.");
    const some = sizes.filter((hops) => hops <= MOST_OPEN);
    console.log(
      channelsTable(some.map((hops) => channelsOf(COMMAND, folderOf("open"), networks.get(hops)!))),
    );
  }
  if (wants("parts")) await engineParts();
  if (figures.length > 0) judge(figures, Math.min(yardstickMs, yardstick()), asked);
  console.log(`\nLoad of the machine at the end: ${loadavg()[0]!.toFixed(1)}.`);
}

function judge(figures: readonly BenchFigure[], yardstickMs: number, asked: readonly string[]): void {
  const all = judged(figures, yardstickMs, readRecorded(RECORDED));
  section("Judged", `The fixed piece of work took ${yardstickMs.toFixed(0)} ms, the least at begin and end.`);
  console.log(judgedTable(all));
  if (asked.includes("--record")) record(RECORDED, figures, yardstickMs);
  else if (asked.includes("--compare") && all.some(({ isSlower }) => isSlower)) process.exitCode = 1;
}

function machine(): string {
  const processors = cpus();
  const memoryGb = (totalmem() / 2 ** 30).toFixed(0);
  return `Node ${process.version}, ${process.platform} ${process.arch}, ${processors.length} processors (${processors[0]?.model.trim()}), ${memoryGb} GB; load at the start ${loadavg()[0]!.toFixed(1)}.`;
}

function section(title: string, text: string): void {
  console.log(`\n## ${title}\n${text === "" ? "" : `\n${text}\n`}`);
}

function folderOf(name: string): string {
  return join(CACHE, `net-${name}`);
}

function phases(folder: string): Promise<Phases> {
  return inOwnProcess("phases-of", folder);
}

function interferenceAmong(
  hops: number,
  networks: ReadonlyMap<number, NetworkText>,
): Promise<InterferenceFigures> {
  const folder = folderOf(`others-${hops}`);
  const files = new Map(networks.get(hops) ?? networkText(hops, "../terrain"));
  files.set("others.hop", OTHERS_STATEMENT);
  files.set("register.csv", othersText(2 * hops, areaDegOf(hops)));
  writeNetwork(folder, files);
  return inOwnProcess("interference-of", folder);
}

function demandsAmong(hops: number, files: NetworkText): Promise<DemandFigures> {
  const folder = folderOf(`demands-${hops}`);
  writeNetwork(folder, withDemands(files, hops / 2));
  return inOwnProcess("demands-of", folder);
}

async function inOwnProcess<T>(what: string, folder: string): Promise<T> {
  const { process: child, ended } = startNode(
    ["--expose-gc", process.argv[1]!, what, folder],
    ["ignore", "pipe", "inherit"],
  );
  let out = "";
  child.stdout!.on("data", (data) => {
    out += String(data);
  });
  const { exitCode } = await ended;
  if (exitCode !== 0) throw new Error(`${what} ${folder} could not be measured`);
  return JSON.parse(out) as T;
}

async function coldCheck({ hops, isAlone }: Pick<ColdCheck, "hops" | "isAlone">): Promise<ColdCheck> {
  const folder = folderOf(isAlone ? `alone-${hops}` : String(hops));
  const runs = await inTurn(Array.from({ length: COLD_RUNS }), async () => {
    const { ended } = startNode([COMMAND, "check", folder], ["ignore", "ignore", "inherit"]);
    const done = await ended;
    // 1: there are findings, as meant.
    if (done.exitCode !== 0 && done.exitCode !== 1) throw new Error(`check ended with ${done.exitCode}`);
    return done;
  });
  const median = (of: "wallMs" | "processorMs") =>
    quantile(
      runs.map((run) => run[of]),
      0.5,
    );
  return {
    hops,
    isAlone,
    wallMs: median("wallMs"),
    processorMs: median("processorMs"),
    peakRssMb: Math.max(...runs.map(({ peakRssMb }) => peakRssMb)),
  };
}

async function ordinaryEdits(hops: number, files: NetworkText): Promise<NamedEdits> {
  const report = await heightEdits(
    SERVER,
    folderOf(String(hops)),
    hopFiles(files).slice(0, 4),
    100,
    "an antenna height",
  );
  return { design: `${hops} hops`, ...report };
}

async function cruelEdits(hops: number, files: NetworkText): Promise<NamedEdits[]> {
  writeNetwork(folderOf("unknown"), withUnknownNames(files));
  writeNetwork(folderOf("giant"), inOneFile(files));
  const opened = hopFiles(files).slice(0, 2);
  const far = await farReachingEdits(SERVER, folderOf(String(hops)), opened, 6);
  const unknown = await heightEdits(SERVER, folderOf("unknown"), opened, 40, "an antenna height");
  const giant = await heightEdits(SERVER, folderOf("giant"), ["network.hop"], 10, "an antenna height");
  return [
    { design: `${hops} hops`, ...far },
    { design: `${hops} hops, an unknown name in each file`, ...unknown },
    { design: `${hops} hops in one file`, ...giant },
  ];
}

function hopFiles(files: NetworkText): string[] {
  return [...files.keys()].filter((path) => path.startsWith("hops/"));
}

/** Measurements of single parts of the engine; each prints its own lines. */
async function engineParts(): Promise<void> {
  for (const [name, title] of [
    ["terrain-points", "Points of terrain"],
    ["evaluate-hop", "Evaluating and judging a hop, terrain at hand"],
    ["availability", "Availability of 10,000 hops"],
    ["p530", "Methods of P.530"],
    ["propagation", "Propagation"],
  ] as const) {
    const outfile = join(CACHE, `${name}.mjs`);
    await build({
      entryPoints: [`tests/bench/${name}.ts`],
      outfile,
      bundle: true,
      platform: "node",
      format: "esm",
      packages: "external",
      logLevel: "error",
    });
    section(title, "");
    const { stdout } = spawnSync(process.execPath, [outfile], {
      encoding: "utf8",
      stdio: ["ignore", "pipe", "inherit"],
    });
    console.log(`\`\`\`\n${stdout.trimEnd()}\n\`\`\``);
  }
}

/** One after the other: two measurements at a time would measure each other. */
async function inTurn<A, B>(all: readonly A[], work: (one: A) => Promise<B>): Promise<B[]> {
  const done: B[] = [];
  for (const one of all) done.push(await work(one));
  return done;
}
