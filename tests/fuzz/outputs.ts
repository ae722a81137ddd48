/** Everything that the commands print of judged designs, in process, and what must hold of all of it. */
import { isDeepStrictEqual } from "node:util";
import { SaxesParser } from "saxes";
import { decisionsOf } from "../../language/compare/decided.js";
import { formatText } from "../../language/format/format.js";
import { statusOf } from "../../server/cli/commands/check.js";
import { FORMATS, type FormatCommand } from "../../server/cli/formats.js";
import type {
  ChannelsOfHop,
  Checked,
  DemandsOfFolder,
  Explained,
  Format,
  HistoryOfHop,
  ProfileOfHop,
} from "../../server/cli/print/format.js";
import { plain } from "../../server/cli/streams.js";
import { CommandError } from "../../server/command-error.js";
import { compareStates, type DesignState } from "../../server/compare/compare-designs.js";
import { type ComparedDesign, notesOf } from "../../server/compare/compare-folders.js";
import type { JudgedFolder } from "../../server/findings/judged-folder.js";
import { countsOf } from "../../server/findings/summary.js";
import {
  calibrationIn,
  demandsOf,
  overviewOf,
  pageOfHop,
  partsOf,
} from "../../server/report/design-pages.js";
import { tryChannels } from "../../server/session/channels.js";
import { ground } from "../../server/session/ground.js";
import { SHEET_KINDS, SHEET_LANGUAGES, sheetsOf } from "../../server/sheets/sheets.js";
import { decisionChanges } from "../../shared/compare/decisions.js";
import { findRenames } from "../../shared/compare/renames.js";
import { atAllTimes } from "../../shared/compare/times.js";
import { withinReason } from "../../shared/evaluate/reason.js";
import { Memory } from "../../shared/network/memory.js";
import type { Page } from "../../shared/report/document/document.js";
import { explainHop } from "../../shared/report/explain.js";
import { explainSite } from "../../shared/report/explain-site.js";
import { disagreements } from "../rules/verdicts.js";
import { thrown, Watch } from "./fuzzer.js";

/** The design as it was and as it is, each judged. */
export interface Fuzzed {
  readonly was: JudgedFolder;
  readonly is: JudgedFolder;
  readonly texts: readonly string[];
  readonly today: string;
}

const CWD = "/elsewhere";

type Output = (fuzzed: Fuzzed) => AsyncIterable<string> | Iterable<string>;
/** What the formats of a command print, as often as the design has one. */
type Inputs = {
  readonly [C in Exclude<FormatCommand, "list">]: (
    fuzzed: Fuzzed,
  ) => Iterable<InputOf<C>> | AsyncIterable<InputOf<C>>;
};
type InputOf<C extends FormatCommand> = Parameters<(typeof FORMATS)[C][number]["print"]>[0];

const INPUTS: Inputs = {
  check: ({ is }): Checked[] => [
    {
      judged: is,
      paint: plain,
      cwd: CWD,
      columns: 80,
      show: "info",
      resolved: true,
      counts: ({ severity }) => severity === "error",
    },
  ],
  report: pagesOf,
  sheets: ({ is }) =>
    is.designs.flatMap((design) =>
      (["en", "de"] as const).flatMap((language) => [
        ...sheetsOf(design, {
          kinds: SHEET_KINDS,
          revision: { state: "not in git" },
          words: SHEET_LANGUAGES[language],
          folder: `${language}/`,
        }),
      ]),
    ),
  diff: async function* (fuzzed) {
    yield await comparisonOf(fuzzed);
  },
  profile: async function* ({ is }): AsyncIterable<ProfileOfHop> {
    for (const { session } of is.designs)
      for (const { hop, result } of session.results().values()) {
        const { profile } = await ground(hop, session.terrain());
        if (profile) yield { hop, result, profile, paint: plain };
      }
  },
  explain: ({ is }): Explained[] =>
    is.designs.flatMap(({ model, session }) => {
      const design = model.design();
      const hops = [...session.results().values()].map(({ hop, result }) => ({
        of: { hop: hop.name },
        figures: explainHop(hop, result, design),
        paint: plain,
      }));
      const sites = [...design.sites.keys()].map((site) => ({
        of: { site },
        figures: explainSite(site, design) ?? [],
        paint: plain,
      }));
      return [...hops, ...sites];
    }),
  history: historiesOf,
  demands: demandsIn,
  channels: async function* ({ is }): AsyncIterable<ChannelsOfHop> {
    for (const { session } of is.designs)
      for (const { hop } of session.results().values()) {
        const tried = await tryChannels(session, hop.name);
        if (typeof tried !== "string") yield { hop, tried, paint: plain };
      }
  },
};

/** All of a design's demands, then each by itself. */
function demandsIn({ is }: Fuzzed): DemandsOfFolder[] {
  const designs = is.designs.map((design) => ({
    design,
    result: design.session.demands(),
    findings: design.findings,
  }));
  const names = designs.flatMap(({ result }) => [...(result?.demands.keys() ?? [])]);
  const one = names.map((only) => ({
    designs: designs.filter(({ result }) => result?.demands.has(only)),
    only,
    paint: plain,
  }));
  return [{ designs, paint: plain }, ...one];
}

/** A row for each command and format; a case leaves some out. */
export const OUTPUTS: Readonly<Record<string, Output>> = {
  ...Object.fromEntries(
    Object.entries(INPUTS).flatMap(([command, inputs]) =>
      FORMATS[command as keyof Inputs].map((format) => [
        `${command} ${format.name}`,
        (fuzzed: Fuzzed) => printedIn(format as Format<unknown>, (inputs as Inputs["check"])(fuzzed)),
      ]),
    ),
  ),
  format: ({ texts }) => texts.flatMap((text) => formatted(text)),
};

/** A page takes as long as many in other formats. */
const MOST_PDFS = 1;

async function* printedIn(
  format: Format<unknown>,
  inputs: Iterable<unknown> | AsyncIterable<unknown>,
): AsyncIterable<string> {
  let left = format.name === "pdf" ? MOST_PDFS : Infinity;
  for await (const input of inputs) {
    if (left-- === 0) return;
    try {
      const printed = textsOf(await format.print(input));
      yield* HELD[format.name]?.(printed) ?? printed;
    } catch (error) {
      // What a command says in one line is an answer, of this hop alone.
      if (!(error instanceof CommandError)) throw error;
    }
  }
}

async function all(parts: Iterable<string> | AsyncIterable<string>): Promise<string[]> {
  const told: string[] = [];
  for await (const part of parts) told.push(part);
  return told;
}

type Printed = string | { readonly text: string } | { readonly bytes: Uint8Array };

/** A page is printed as files; of one in bytes only that it is whole is seen here. */
function* textsOf(printed: Iterable<Printed>): Iterable<string> {
  for (const one of printed) {
    if (typeof one === "string") yield one;
    else if ("text" in one) yield one.text;
    else if (Buffer.from(one.bytes.slice(-6)).toString("latin1").trim() !== "%%EOF")
      throw new Error("a PDF without an end");
  }
}

/** What text of a format must be for those who read it. */
const HELD: Readonly<Record<string, (parts: Iterable<string>) => Iterable<string>>> = {
  json: asJson,
  sarif: asJson,
  junit: asXml,
  github: asCommands,
};

function historiesOf({ was, is }: Fuzzed): HistoryOfHop[] {
  return is.designs.flatMap(({ model, session }, index) => {
    const before = was.designs[index];
    if (!before) return [];
    const [a, b] = [decisionsOf(before.model), decisionsOf(model)];
    const renames = findRenames(a, b);
    return model.names("hop").flatMap((hop) => {
      const [old, now] = [a.hop(hop), b.hop(hop)];
      if (!old || !now) return [];
      const decisions = decisionChanges(old.facts, now.facts, renames);
      const entry = {
        hop,
        status: "changed" as const,
        decisions,
        shared: [],
        terrainChanged: true,
        interferenceChanged: true,
        judged: session.result(hop),
      };
      return [{ hop, entries: [entry], notes: [], paint: plain }];
    });
  });
}

/** What would steer a terminal, whatever is printed. */
const STEERING = /[\u0000-\u0008\u000b-\u001f\u007f-\u009f\u2028\u2029\u202a-\u202e\u2066-\u2069]/u;

/**
 * @param took is told what the printing of each took of the processor
 * @returns what is wrong with what is printed, a line each
 */
export async function faultsOfOutputs(
  fuzzed: Fuzzed,
  names: readonly string[],
  took: (name: string, ms: number) => void,
): Promise<string[]> {
  const wrong = [...faultsOfResults(fuzzed)];
  for (const name of names) {
    try {
      const { value: parts, ms } = await Watch.time(() => all(OUTPUTS[name]!(fuzzed)));
      took(name, ms);
      for (const part of parts) {
        const word = unwritten(part, fuzzed.texts);
        if (word) wrong.push(`${name} prints ${word}`);
        const steering = STEERING.exec(part);
        if (steering)
          wrong.push(`${name} prints a control character in ${JSON.stringify(around(part, steering.index))}`);
      }
    } catch (error) {
      // What a command says in one line is an answer.
      if (!(error instanceof CommandError)) wrong.push(thrown(name, error));
    }
  }
  return [...new Set(wrong)];
}

function* faultsOfResults({ is }: Fuzzed): Iterable<string> {
  const status = statusOf(is, ({ severity, accepted }) => severity === "error" && !accepted);
  const errors = is.designs.reduce((sum, design) => sum + countsOf(design).errors, 0);
  const expected = is.unreadable.length > 0 ? 2 : errors > 0 ? 1 : 0;
  if (status !== expected && status !== 2) yield `status ${status} with ${errors} errors`;
  for (const { session, model, findings } of is.designs) {
    for (const { rule, message } of findings)
      if (rule === "internal-fault") yield `fault of its own: ${message}`;
    for (const { hop, result, findings: ofHop } of session.results().values()) {
      const path = notFinite(result, "result") ?? notFinite(hop, "hop");
      if (path) yield `not finite: ${path}`;
      if (ofHop.some(({ rule }) => rule === "internal-fault")) continue;
      const told = result.missing.some((lack) => lack.told);
      // A position that cannot be read is told at its site.
      const ofSite = hop.unusable?.some(({ fact }) => fact === "at") === true;
      const isTold = ({ hop: at, severity }: { hop?: string; severity: string }) =>
        severity === "error" && (at === hop.name || (ofSite && at === undefined));
      if (told && !findings.some(isTold))
        yield `${hop.name} holds what cannot be used, and the text has no error there`;
      for (const said of disagreements(withinReason(hop).hop, result, ofHop)) yield `verdict: ${said}`;
    }
    for (const { name } of model.design().sites.values()) {
      const path = notFinite(model.lookup.site(name), "site");
      if (path) yield `not finite: ${path}`;
    }
  }
}

/** Path of the first number that is none. */
function notFinite(value: unknown, path: string): string | undefined {
  if (typeof value === "number") return Number.isFinite(value) ? undefined : `${path} is ${value}`;
  if (value === null || typeof value !== "object") return undefined;
  for (const [key, part] of value instanceof Map ? value : Object.entries(value)) {
    const found = notFinite(part, `${path}.${String(key)}`);
    if (found) return found;
  }
  return undefined;
}

const UNWRITTEN = /(?<![\w-])(NaN|-?Infinity|undefined|\[object \w+\])(?![\w-])/;

/** A word that JavaScript writes for what is no value, unless the design itself has it. */
function unwritten(part: string, texts: readonly string[]): string | undefined {
  const found = UNWRITTEN.exec(part);
  if (!found || texts.some((text) => text.includes(found[1]!.replace("-", "")))) return undefined;
  return JSON.stringify(around(part, found.index));
}

function around(text: string, at: number): string {
  return text.slice(Math.max(0, at - 60), at + 40);
}

async function* pagesOf({ is, today }: Fuzzed): AsyncIterable<Page> {
  for (const design of is.designs) {
    const options = { folder: "", today };
    yield overviewOf(design, options);
    const parts = partsOf(design, options);
    const carried = demandsOf(design, options);
    if (carried) yield carried;
    const measured = calibrationIn(design, options);
    if (measured) yield measured;
    if (parts) yield parts;
    for (const name of design.model.names("hop")) {
      const page = await pageOfHop(design, name, options);
      if (page) yield page;
    }
  }
}

async function comparisonOf({ was, is }: Fuzzed) {
  const designs: ComparedDesign[] = [];
  for (const [index, { root, title, session }] of is.designs.entries()) {
    const before = was.designs[index]?.session ?? session;
    const state = (one: typeof session): DesignState => ({
      session: one,
      ground: {
        openTerrain: () => Promise.reject(new Error("open")),
        fileFor: (path) => path,
        shown: (file) => file,
        notes: [],
      },
      live: true,
      memory: new Memory(),
    });
    const changes = await compareStates(state(before), state(session));
    designs.push({
      root,
      title,
      changes,
      times: atAllTimes(changes),
      daysLeftOut: 0,
      was: before,
      is: session,
    });
  }
  const revision = { name: "main", commit: "0".repeat(40), short: "0000000000" };
  return {
    repository: { root: is.root, shallow: false },
    was: revision,
    designs,
    notes: notesOf(designs, revision, undefined),
    unreadable: is.unreadable,
    dispose: () => undefined,
  };
}

/** Laid out twice it is the same, and it lays out what can be read. */
function formatted(text: string): string[] {
  const once = formatText(text);
  if (!once.ok) return once.problems.map(({ message }) => message.replace(/[^\P{Cc}]/gu, ""));
  const twice = formatText(once.text);
  if (!isDeepStrictEqual(twice, once)) throw new Error("layout of a layout is another");
  return [];
}

function* asJson(parts: Iterable<string>): Iterable<string> {
  const text = [...parts].join("");
  JSON.parse(text);
  yield text;
}

function* asXml(parts: Iterable<string>): Iterable<string> {
  const text = [...parts].join("");
  const parser = new SaxesParser();
  parser.on("error", (error) => {
    throw error;
  });
  parser.write(text).close();
  yield text;
}

function* asCommands(parts: Iterable<string>): Iterable<string> {
  for (const part of parts) {
    if (!/^::(error|warning|notice) [^\r\n]*\n$/.test(part)) throw new Error(`no workflow command: ${part}`);
    yield part;
  }
}
