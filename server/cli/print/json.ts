/** `check` for programs: one object, a line a finding and a line a hop. */
import { resolve } from "node:path";
import type { HopResult } from "../../../shared/evaluate/account/result.js";
import type { FileProblem } from "../../files/hop-files.js";
import type { JudgedDesign, JudgedFolder } from "../../findings/judged-folder.js";
import { shownFrom } from "../../findings/paths.js";
import { knownBy, type Place, type PlacedFinding } from "../../findings/placed.js";
import { countsOf, hopsOf, shownTime, sumOf } from "../../findings/summary.js";
import { VERSION } from "../../version.js";
import type {
  CheckOutput,
  DesignDocument,
  DesignOutput,
  FileProblemOutput,
  FindingOutput,
  HopOutput,
  PlaceOutput,
} from "./check-output.js";
import type { Checked, CheckFormat } from "./format.js";
import { interferenceOutput } from "./interference-output.js";
import { jsonText } from "./json-text.js";
import { resultOutput } from "./result-output.js";

export const checkJson: CheckFormat = {
  name: "json",
  what: "everything, for programs and for --baseline",
  print: ({ judged, cwd, resolved = false }) => printJson(judged, { cwd, resolved }),
};

type JsonOptions = Required<Pick<Checked, "cwd" | "resolved">>;

/** In pieces, since the results of a large network are too long for one string. */
function* printJson(judged: JudgedFolder, options: JsonOptions): Iterable<string> {
  const { root, designs } = judged;
  const head: Omit<CheckOutput, "designs"> = {
    schema: "hopwright-check/3",
    version: VERSION,
    root: shownFrom(options.cwd, root),
    counts: sumOf(designs.map(countsOf)),
    unreadable: judged.unreadable.map((problem) => fileProblem(problem, root)),
  };
  yield `${open(head)},"designs":[`;
  for (const [index, design] of designs.entries()) {
    yield index === 0 ? "\n" : ",\n";
    yield* printDesign(design, root, options);
  }
  yield "\n]}\n";
}

function* printDesign(design: JudgedDesign, root: string, { resolved }: JsonOptions): Iterable<string> {
  const head: Omit<DesignOutput, "findings" | "hops" | "resolved"> = {
    folder: shownFrom(root, design.root),
    title: design.title,
    shows: shownTime(design),
    without: design.without,
    counts: countsOf(design),
    terrainProblems: design.terrainProblems.map((problem) => fileProblem(problem, root)),
  };
  yield `${open(head)},"findings":[`;
  yield* list(design.findings, (finding) => findingOutput(finding, design.root, root));
  yield `],"hops":[`;
  yield* list(inTextOrder(design), (hop) => hopOutput(hop, design.root, root));
  yield "]";
  if (resolved) yield `,"resolved":${text(designDocument(design))}`;
  yield "}";
}

/** The result of a hop, and when it stands. */
interface Standing {
  readonly result: HopResult;
  /** And what else is told of the hop. */
  readonly more: Pick<HopOutput, "state" | "until" | "interference">;
}

/** Results in the order in which the hops were declared, whatever the order of evaluation was. */
function inTextOrder(design: JudgedDesign): Standing[] {
  const { session, gone } = design;
  return hopsOf(design).flatMap((name): Standing[] => {
    const left = gone.get(name);
    if (left) return [{ result: left.result, more: { state: left.hop.state, until: left.until } }];
    const judged = session.felt(name);
    if (!judged) return [];
    const interference = judged.interference.map(interferenceOutput);
    return [{ result: judged.result, more: { state: judged.hop.state, interference } }];
  });
}

function hopOutput({ result, more }: Standing, designRoot: string, root: string): HopOutput {
  const output = { ...resultOutput(result), ...more };
  if (!result.profile) return output;
  const sources = result.profile.sources.map((source) => ({
    ...source,
    file: shownFrom(root, resolve(designRoot, source.file)),
  }));
  return { ...output, profile: { ...result.profile, sources } };
}

function designDocument({ model }: JudgedDesign): DesignDocument {
  const { title, terrain, sites, hops, equipment, acceptedAt, spares, groundingEveryM, ...more } =
    model.design();
  const { demands, traffic, trafficAt } = more;
  return {
    schema: "hopwright-design/1",
    title,
    terrain,
    sites: [...sites.values()],
    hops: [...hops.values()],
    equipment: equipment && [...equipment.values()],
    acceptedAt: acceptedAt && [...acceptedAt].map(([site, accepts]) => ({ site, accepts })),
    spares,
    groundingEveryM,
    demands: demands && [...demands.values()],
    traffic,
    trafficAt: trafficAt && [...trafficAt].map(([site, at]) => ({ site, ...at })),
  };
}

export function findingOutput(finding: PlacedFinding, designRoot: string, root: string): FindingOutput {
  const { rule, severity, message, help, hop, place, related, notJudged, accepted, time } = finding;
  const others = related.map((one) => ({
    message: one.message,
    place: one.place && placeOutput(one.place, root),
    file: one.file === undefined ? undefined : shownFrom(root, resolve(designRoot, one.file)),
  }));
  return {
    rule,
    key: knownBy(finding),
    severity,
    message,
    help,
    hop,
    place: place && placeOutput(place, root),
    related: others.length > 0 ? others : undefined,
    notJudged,
    accepted,
    from: time?.from,
    until: time?.until,
  };
}

function placeOutput(place: Place, root: string): PlaceOutput {
  const { file, line, column, endLine, endColumn, start, end } = place;
  return {
    file: shownFrom(root, file),
    line,
    column,
    endLine,
    endColumn,
    startOffset: start,
    endOffset: end,
  };
}

function fileProblem({ path, message, reservation }: FileProblem, root: string): FileProblemOutput {
  return { file: shownFrom(root, path), message, reservation };
}

/** An object without its closing brace. */
function open(head: object): string {
  return text(head).slice(0, -1);
}

function* list<T>(items: readonly T[], output: (item: T) => object): Iterable<string> {
  for (const [index, item] of items.entries()) yield `${index === 0 ? "\n" : ",\n"}${text(output(item))}`;
  if (items.length > 0) yield "\n";
}

function text(value: object): string {
  return jsonText(value, 0);
}
