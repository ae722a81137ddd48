/** A folder, read and judged: what `check`, `report`, `profile` and `explain` start from. */
import { statSync } from "node:fs";
import { resolve } from "node:path";
import type { DesignModel } from "../../language/model/design-model.js";
import type { Finding } from "../../shared/design/finding.js";
import { CommandError } from "../command-error.js";
import { type FileProblem, reasonOf, type UnreadableFile } from "../files/hop-files.js";
import { slashed } from "../files/slashed.js";
import { type Keeping, openKept } from "../kept/open.js";
import { DesignSession, type Pace } from "../session/design-session.js";
import { loadProject } from "../session/load.js";
import { startThread } from "../terrain/ahead.js";
import { inOrder, type PlacedFinding, Placer } from "./placed.js";
import { hopAround, problemsOfHop } from "./problems-of-hop.js";
import { withoutRepeats } from "./repeated.js";
import {
  acceptanceDay,
  judgeStages,
  type LeftHop,
  type LeftSite,
  lastDayOf,
  plannedOnly,
  stagesOf,
  type Times,
} from "./stages.js";
import { holdingElement, ofTrial, takenOut, type Without, withRoutes } from "./without.js";

export interface JudgedDesign {
  /** Folder of the design, absolute. */
  readonly root: string;
  readonly title?: string;
  readonly model: DesignModel;
  readonly session: DesignSession;
  /** Problems of text, of hops and of the network, by file and place. */
  readonly findings: readonly PlacedFinding[];
  /** Terrain that could not be used, and terrain used with a reservation; one line each. */
  readonly terrainProblems: readonly FileProblem[];
  /** Hops that stand at a time that was judged and not at the last one. */
  readonly gone: ReadonlyMap<string, LeftHop>;
  /** The hops that are told of, where not all are. */
  readonly about?: ReadonlySet<string>;
  readonly goneSites: ReadonlyMap<string, LeftSite>;
  /** What was taken out before judging. */
  readonly without?: Without;
  /** The days that were judged, in order; of the last are the figures of the session. */
  readonly days: readonly string[];
}

export interface JudgedFolder {
  /** Absolute, parted by `/`. */
  readonly root: string;
  readonly designs: readonly JudgedDesign[];
  /** `.hop` files and catalogue folders that could not be read. */
  readonly unreadable: readonly UnreadableFile[];
}

export interface JudgeOptions {
  /** ISO date: what stands by then is built, and acceptances that end before it have. */
  readonly today: string;
  readonly pace?: Pace;
  /** Evaluates this hop alone, and leaves the findings of everything else out. */
  readonly only?: string;
  /** A hop, a site or a card: the hops that it takes with it do not stand. */
  readonly without?: string;
  /** Which times are judged; each from today on, if left out. */
  readonly times?: Times;
  /** Takes results from earlier runs, and keeps those of this one; called where nothing can be kept. */
  readonly keeping?: (problem: string) => void;
}

/** @throws CommandError when the folder is not there, or there is nothing of a design in it */
export async function judgeFolder(folder: string, options: JudgeOptions): Promise<JudgedFolder> {
  const { project, unreadable } = loadProject(designFolder(folder));
  if (project.allFiles()[Symbol.iterator]().next().done && unreadable.length === 0) {
    throw new CommandError(
      `${folder}: no .hop file in this folder or below; name the folder of a design, or begin one with a file network.hop`,
    );
  }
  const seen = new Set<string>();
  const designs: JudgedDesign[] = [];
  const models = project.designs();
  const out = options.without === undefined ? undefined : holdingElement(models, options.without);
  for (const model of models)
    designs.push(
      await judge(
        model,
        { ...options, without: model === out ? options.without : undefined },
        seen,
        options.keeping && (await openKept(project.root, model, options.keeping)),
      ),
    );
  return { root: project.root, designs, unreadable };
}

/** The folder as an absolute path. */
export function designFolder(folder: string): string {
  const at = resolve(folder);
  try {
    if (!statSync(at).isDirectory()) {
      throw new CommandError(`${folder}: this is a file; name the folder of the design`);
    }
  } catch (error) {
    if (error instanceof CommandError) throw error;
    throw new CommandError(`${folder}: ${reasonOf(error)}; name the folder of a design`);
  }
  return at;
}

/** @param seen findings told already, by design before: a shared catalogue counts for several designs */
async function judge(
  model: DesignModel,
  options: JudgeOptions,
  seen: Set<string>,
  keeping: Keeping | undefined,
): Promise<JudgedDesign> {
  const { today, pace, only } = options;
  const session = new DesignSession(model, { today, startThread, kept: keeping?.results });
  const { times = {} } = options;
  if (only === undefined) {
    const without =
      options.without === undefined ? undefined : await takenOut(session, options.without, options);
    const staged = await judgeStages(session, times, pace, () => {
      const found = findingsOf(model, session);
      return without === undefined ? found : ofTrial(found, without);
    });
    await keeping?.end(session);
    const { findings, ...others } = times.state === "planned" ? plannedOnly(model, staged) : staged;
    const judged = { ...designOf(model, session, firstTold(findings, seen)), ...others };
    return without === undefined ? judged : { ...judged, without: withRoutes(without, session) };
  }
  const on = times.on ?? lastDayOf(model, only, today);
  model.setView({ on });
  session.holdAcceptancesOn(acceptanceDay(on, stagesOf(model, today, {}).at(-2), today));
  // What the others send is part of what this one can bear.
  await session.update();
  return judgedHop(model, session, only);
}

/** What a session that is up to date has to say of its design. */
export function judgedDesign(
  model: DesignModel,
  session: DesignSession,
  seen = new Set<string>(),
): JudgedDesign {
  return designOf(model, session, firstTold(findingsOf(model, session), seen));
}

function findingsOf(model: DesignModel, session: DesignSession): readonly PlacedFinding[] {
  const placer = new Placer(model);
  const findings: PlacedFinding[] = [];
  for (const file of model.allFiles()) {
    for (const problem of model.problemsOf(file.path)) {
      findings.push(placer.ofProblem(file.path, problem, hopAround(file, problem.start)));
    }
  }
  for (const [name, judged] of session.results()) {
    for (const finding of judged.findings) findings.push(placer.ofFinding(finding, name));
  }
  const concerned = hopsConcerned(model);
  for (const finding of session.networkFindings())
    findings.push(placer.ofFinding(finding, concerned(finding)));
  return findings;
}

/**
 * The hop whose fault it is, or whose licence it is about; a remark that stands at the first of many hops is of none of
 * them.
 */
function hopsConcerned(model: DesignModel): (finding: Finding) => string | undefined {
  const { licences = [], hops } = model.design();
  const licensed = new Map(licences.map(({ at, hop }) => [at, hop]));
  return ({ at, severity, accepted }) => {
    if (severity === "info" && !accepted) return undefined;
    const top = at.split(" / ", 1)[0]!;
    const hop = licensed.get(top);
    if (hop !== undefined) return hops.has(hop) ? hop : undefined;
    return top.startsWith("hop ") ? top.slice("hop ".length) : undefined;
  };
}

function firstTold(findings: readonly PlacedFinding[], seen: Set<string>): readonly PlacedFinding[] {
  return findings.filter(({ place, rule, message }) => {
    const key = `${place?.file} ${place?.start} ${rule} ${message}`;
    if (seen.has(key)) return false;
    seen.add(key);
    return true;
  });
}

/** The same for one hop: its findings alone, whatever the size of the network. */
function judgedHop(model: DesignModel, session: DesignSession, name: string): JudgedDesign {
  const placer = new Placer(model);
  session.updateNetwork();
  const concerned = hopsConcerned(model);
  const ofNetwork = session.networkFindings().filter((finding) => concerned(finding) === name);
  const findings = [...(session.result(name)?.findings ?? []), ...ofNetwork];
  return designOf(model, session, [
    ...problemsOfHop(model, name).map(({ file, problem }) => placer.ofProblem(file, problem, name)),
    ...findings.map((finding) => placer.ofFinding(finding, name)),
  ]);
}

function designOf(
  model: DesignModel,
  session: DesignSession,
  findings: readonly PlacedFinding[],
): JudgedDesign {
  const terrainProblems = [...(session.terrain()?.problems ?? []), ...(session.maps()?.problems ?? [])].map(
    ({ file, ...told }): FileProblem => ({
      path: slashed(resolve(model.root, file)),
      ...told,
    }),
  );
  return {
    root: model.root,
    title: model.title(),
    model,
    session,
    findings: withoutRepeats(inOrder(findings)),
    terrainProblems,
    gone: new Map(),
    goneSites: new Map(),
    days: [model.view.on],
  };
}
