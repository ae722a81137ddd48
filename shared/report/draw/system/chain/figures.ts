/**
 * Losses, gains and levels of a chain: what the evaluation counts for each branch, put on the part or joint where it
 * arises. Sums along a chain are those of the level diagram and of every way through the branches.
 */
import type { Hop } from "../../../../design/design.js";
import { carrierUnits } from "../../../../equipment/branches.js";
import type { DirectionResult, LevelElement, PathLevel } from "../../../../evaluate/account/level-result.js";
import type { HopResult } from "../../../../evaluate/account/result.js";
import { newTrace } from "../../../../evaluate/account/trace.js";
import { transmitPowerDbm } from "../../../../evaluate/level/levels.js";
import { unitFrequencies } from "../../../../evaluate/level/own-channels.js";
import { type EndParts, terminal } from "../../../../evaluate/level/terminal.js";
import { factsAt } from "../../../../radio/arrangement-pairs.js";
import type { ArrangementFacts } from "../../../../radio/arrangements.js";
import type { ChainEnd, ChainLine, ChainStep, LineLevels, Passed } from "./chain.js";

/**
 * The ends with their figures; whatever is not known stays open.
 * @param built what each end is built as
 */
export function withFigures(
  hop: Hop,
  { directions }: HopResult,
  ends: readonly [ChainEnd, ChainEnd],
  built: readonly [ArrangementFacts | undefined, ArrangementFacts | undefined],
): readonly [ChainEnd, ChainEnd] {
  const [first, second] = built;
  if (first === undefined || second === undefined) return ends;
  const parts = [partsOf(hop, 0, [first, second]), partsOf(hop, 1, [first, second])] as const;
  const endOf = (at: 0 | 1): ChainEnd => {
    const [{ site, lines }, far] = [ends[at], ends[1 - at]!];
    const out = directions.find(({ from }) => from === site);
    const back = directions.find(({ to }) => to === site);
    return {
      site,
      lines: lines.map((line, index): ChainLine => {
        const own = parts[at][index]!;
        const sends = out && wayOf(out, lines.length, line.branch.name, "from", far);
        const hears = back && wayOf(back, lines.length, line.branch.name, "to", far);
        const powerDbm = sends && outputDbm(hop, at);
        const sender = hears && far.lines.findIndex(({ branch }) => branch.name === hears.far);
        const sent = sender === undefined ? undefined : parts[1 - at]![sender]?.send;
        const farDbm = outputDbm(hop, (1 - at) as 0 | 1);
        const arrivesDbm =
          hears && sent && farDbm !== undefined
            ? farDbm - sent.lossDb + sent.gainDbi - hears.betweenDb
            : undefined;
        const inputDbm =
          own.receive && arrivesDbm !== undefined
            ? arrivesDbm + own.receive.gainDbi - own.receive.lossDb
            : undefined;
        return {
          ...line,
          steps: stepsWith(line.steps, own, { powerDbm: own.send && powerDbm, arrivesDbm }),
          send: levelsOf(sends, own.send && powerDbm),
          receive: levelsOf(hears, inputDbm),
        };
      }),
    };
  };
  return [endOf(0), endOf(1)];
}

function levelsOf(way: LineWay | undefined, unitDbm: number | undefined): LineLevels | undefined {
  return way && unitDbm !== undefined ? { state: way.state, far: way.far, unitDbm } : undefined;
}

/** In the highest mode that has a power, as in the level diagram. */
function outputDbm({ ends, modes }: Hop, at: 0 | 1): number | undefined {
  return modes.flatMap((mode) => transmitPowerDbm(ends[at], mode) ?? []).at(-1);
}

/** What a branch passes outwards and inwards, each at the frequency of its sender. */
interface BothWays {
  readonly send?: EndParts;
  readonly receive?: EndParts;
}

function partsOf(
  hop: Hop,
  at: 0 | 1,
  built: readonly [ArrangementFacts, ArrangementFacts],
): readonly BothWays[] {
  const [end, far] = [hop.ends[at], hop.ends[1 - at]!];
  const [own, sends] = [built[at], built[1 - at]!];
  const out = partsAlong(hop, [end, far], "transmit", own, (branch) => branch);
  const back = partsAlong(hop, [far, end], "receive", own, (branch) => senderOf(own, branch, sends));
  return Array.from({ length: own.transceivers }, (_, index) => ({
    send: out(index),
    receive: back(index),
  }));
}

/** The working unit of the other end whose carrier a branch receives. */
function senderOf(own: ArrangementFacts, branch: number, far: ArrangementFacts): number {
  const carrier = carrierUnits(own).findIndex(({ unit, standby }) => unit === branch || standby === branch);
  return carrierUnits(far)[carrier]?.unit ?? branch;
}

/** @param senderFor the unit that sends what passes a branch */
function partsAlong(
  hop: Hop,
  ends: readonly [Hop["ends"][0], Hop["ends"][0]],
  direction: "transmit" | "receive",
  facts: ArrangementFacts,
  senderFor: (branch: number) => number,
): (branch: number) => EndParts | undefined {
  const firstHz = ends[0].transmitFrequencyHz;
  if (firstHz === undefined || !(firstHz > 0)) return () => undefined;
  const hzOf = unitFrequencies(hop, ends[0], firstHz, factsAt(hop, ends[0]) ?? facts);
  const known = new Map<number, ReturnType<typeof terminal>>();
  return (branch) => {
    const frequencyHz = hzOf(senderFor(branch));
    const of =
      known.get(frequencyHz) ?? terminal({ hop, ends, frequencyHz, trace: newTrace() }, direction, facts);
    known.set(frequencyHz, of);
    return of.parts(of.branches[branch]!);
  };
}

interface LineWay {
  readonly state: PathLevel["state"];
  readonly far: string;
  readonly betweenDb: number;
}

/** How a branch is used while the other end is as usual; undefined: its level is not known, or it never is. */
function wayOf(
  direction: DirectionResult,
  branches: number,
  name: string,
  as: "from" | "to",
  far: ChainEnd,
): LineWay | undefined {
  const { paths, levels } = direction;
  if (paths === undefined) {
    if (branches > 1) return undefined;
    let betweenDb = 0;
    for (const { site, changeDb } of levels) if (site === undefined) betweenDb -= changeDb;
    return { state: "normal", far: far.lines[0]?.branch.name ?? name, betweenDb };
  }
  const own = as === "from" ? "sender on standby" : "receiver on standby";
  const path = paths.find((one) => one[as] === name && (one.state === "normal" || one.state === own));
  return path && { state: path.state, far: path[as === "from" ? "to" : "from"], betweenDb: path.betweenDb };
}

/** Each loss on the part or joint that it belongs to; what has neither is put on the next joint. */
function stepsWith(
  steps: readonly ChainStep[],
  { send, receive }: BothWays,
  { powerDbm, arrivesDbm }: { readonly powerDbm?: number; readonly arrivesDbm?: number },
): readonly ChainStep[] {
  const out = send && onSteps(steps, send, "transmit-antenna");
  const back = receive && onSteps(steps, receive, "receive-antenna");
  const sendDbm: (number | undefined)[] = [];
  const receiveDbm: (number | undefined)[] = [];
  const unit = steps.findIndex((step) => step.kind === "part" && step.part.kind === "unit");
  let levelDbm = powerDbm;
  for (let at = unit; at < steps.length; at++) {
    for (const { changeDb } of out?.[at] ?? [])
      levelDbm = levelDbm === undefined ? undefined : levelDbm + changeDb;
    sendDbm[at] = out && levelDbm;
  }
  levelDbm = arrivesDbm;
  for (let at = steps.length - 1; at >= unit; at--) {
    for (const { changeDb } of back?.[at] ?? [])
      levelDbm = levelDbm === undefined ? undefined : levelDbm + changeDb;
    receiveDbm[at] = back && levelDbm;
  }
  return steps.map((step, at) => ({
    ...step,
    send: { passed: out?.[at] ?? [], levelDbm: sendDbm[at] },
    receive: { passed: back?.[at]?.toReversed() ?? [], levelDbm: receiveDbm[at] },
  }));
}

/** @returns undefined where the way ends before the antenna: its figures belong to what is not joined */
function onSteps(
  steps: readonly ChainStep[],
  { losses, gainDbi, antenna }: EndParts,
  code: "transmit-antenna" | "receive-antenna",
): readonly (readonly Passed[])[] | undefined {
  const last = steps.at(-1);
  if (last?.kind !== "part" || last.part.kind !== "antenna") return undefined;
  const passed: Passed[][] = steps.map(() => []);
  let at = steps.findIndex((step) => step.kind === "part" && step.part.kind === "unit");
  for (const { passes, lossDb } of losses) {
    const own = steps.findIndex((step, index) => index >= at && belongs(passes, step));
    at = own >= 0 ? own : steps.findIndex((step, index) => index >= at && step.kind === "joint");
    passed[at]!.push({ passes, changeDb: -lossDb });
  }
  passed.at(-1)!.push({ passes: { code, antenna }, changeDb: gainDbi });
  return passed;
}

function belongs({ code }: LevelElement, step: ChainStep): boolean {
  if (step.kind === "joint")
    return (code === "feeder" || code === "guide-to-choose") && step.joint.by.kind === "waveguide";
  return (
    (code === "coupler" && step.part.kind === "coupler") ||
    (code === "branching-network" && step.part.kind === "branching")
  );
}
