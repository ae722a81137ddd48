/** One design in two states: evaluates only what differs between them, and compares. */
import { decisionsOf } from "../../language/compare/decided.js";
import type { DesignModel } from "../../language/model/design-model.js";
import type { ChangeSet, ComparedHop, ComparedSide } from "../../shared/compare/change-set.js";
import { compareDesigns } from "../../shared/compare/compare.js";
import { remarkKey, vanishedRemarks } from "../../shared/compare/remaining.js";
import { findRenames, hopNow } from "../../shared/compare/renames.js";
import { contentComparison } from "../../shared/compare/same.js";
import type { Design, Hop } from "../../shared/design/design.js";
import type { Licence } from "../../shared/design/licence.js";
import type { HopResult } from "../../shared/evaluate/account/result.js";
import { feltBy, heardBy, noteAlike } from "../../shared/interference/in-touch.js";
import type { InterferenceAt } from "../../shared/interference/receiver-result.js";
import { isOwn } from "../../shared/interference/station.js";
import { licencesFor } from "../../shared/licence/held.js";
import { demandsInNetwork } from "../../shared/network/demands.js";
import { Memory } from "../../shared/network/memory.js";
import { DesignSession, type Pace } from "../session/design-session.js";
import type { SessionHop } from "../session/hop-judge.js";
import type { TerrainStore } from "../terrain/store.js";
import { listChanges } from "./list-changes.js";
import type { SideGround } from "./side-ground.js";
import { textFindings } from "./text-findings.js";

export interface DesignState {
  readonly session: DesignSession;
  readonly ground: SideGround;
  /** What comparisons made of the hops that they compare, which are seldom all; what both sides have alike is made once. */
  readonly memory: Memory;
  /** Whoever holds the session keeps it up to date: all its hops are evaluated. */
  readonly live?: boolean;
}

/** A state that nothing is evaluated of yet. */
export function stateOf(
  model: DesignModel,
  ground: SideGround,
  today: string,
  memory = new Memory(),
): DesignState {
  const { openTerrain, fileFor } = ground;
  return { session: new DesignSession(model, { today, openTerrain, fileFor }), ground, memory };
}

/** Evaluates on both sides the hops that may differ, and those beside them. */
export async function compareStates(was: DesignState, is: DesignState, pace?: Pace): Promise<ChangeSet> {
  const states = [was, is] as const;
  // Nothing is evaluated yet, but the terrain is open: its stamps tell where the ground differs.
  for (const { session, live } of states) if (!live) await session.update({}, new Set());
  const sides = [sideOf(was), sideOf(is)] as const;
  const ground = groundComparison(sides);
  const wanted = differing(sides, ground);
  for (const [index, { session, live, design }] of sides.entries()) {
    if (live || wanted[index]!.size === 0) continue;
    // What these feel comes from hops that are the same on both sides too.
    await session.updateAmong(pace ?? {}, wanted[index]!, heardBy(design, wanted[index]!));
  }
  for (const { session } of states) await session.readSpots();
  const compared = [comparedSide(sides[0], wanted[0]), comparedSide(sides[1], wanted[1])] as const;
  const today = is.session.acceptanceDay;
  const remarks = await remarksBeside(vanishedRemarks(...compared), sides[1], wanted[1], pace);
  const lists = await listChanges(was.session, is.session);
  return compareDesigns(...compared, { ground, today, remarks, lists });
}

/** So many hops are evaluated at a time in search of a remark. */
const SEARCHED_AT_ONCE = 200;

/**
 * Of the remarks that the hops compared have no more, those that others still have: they are the same on both sides,
 * and are evaluated only until each remark is found.
 */
async function remarksBeside(
  vanished: ReadonlySet<string>,
  { session, live, memory, hops, design }: Side,
  wanted: ReadonlySet<string>,
  pace: Pace | undefined,
): Promise<Set<string>> {
  const found = new Set<string>();
  const others = [...hops.keys()].filter((name) => !wanted.has(name));
  for (let at = 0; at < others.length && found.size < vanished.size; at += SEARCHED_AT_ONCE) {
    const some = others.slice(at, at + SEARCHED_AT_ONCE);
    if (!live) await session.update(pace, new Set(some));
    const results = new Map(
      some.flatMap((name) => {
        const judged = session.result(name);
        return judged ? [[name, judged.result] as const] : [];
      }),
    );
    for (const finding of session.judgeNetworkOf(results, { design, memory })) {
      const key = remarkKey(finding);
      if (key !== undefined && vanished.has(key)) found.add(key);
    }
  }
  return found;
}

interface Side extends DesignState {
  readonly decisions: ComparedSide["decisions"];
  readonly hops: ReadonlyMap<string, Hop>;
  readonly design: Design;
}

function sideOf(state: DesignState): Side {
  const { model } = state.session;
  const design = model.design();
  return { ...state, decisions: decisionsOf(model), hops: design.hops, design };
}

type GroundComparison = (was: string, is: string) => "terrain" | "survey" | undefined;

function groundComparison([was, is]: readonly [Side, Side]): GroundComparison {
  const stores = [was, is].map(({ session }) => session.terrain());
  const stamp = (store: TerrainStore | undefined, { ends }: Hop) => {
    const [from, to] = [ends[0].site.position, ends[1].site.position];
    return store && from && to ? store.stampFor(from, to) : "";
  };
  return (before, now) => {
    const [a, b] = [was.hops.get(before), is.hops.get(now)];
    if (!a || !b) return undefined;
    if (a.surveyFile !== undefined && b.surveyFile !== undefined)
      return was.ground.fileFor(a.surveyFile) === is.ground.fileFor(b.surveyFile) ? undefined : "survey";
    if (stores[0] === stores[1]) return undefined;
    // A path that moved crosses other tiles; that is no change of the terrain.
    return stamp(stores[0], b) === stamp(stores[1], b) ? undefined : "terrain";
  };
}

/** Names of the hops of each side that may have another result: other content, other ground, or no counterpart. */
function differing(sides: readonly [Side, Side], ground: GroundComparison): [Set<string>, Set<string>] {
  const [was, is] = sides;
  const same = contentComparison();
  const renames = findRenames(was.decisions, is.decisions);
  const before = new Map([...was.hops.keys()].map((name) => [hopNow(name, renames), name]));
  const differ: [Set<string>, Set<string>] = [new Set(before.values()), new Set(is.hops.keys())];
  const alike: [Hop, Hop][] = [];
  for (const [name, hop] of was.hops) {
    const now = hopNow(name, renames);
    const other = is.hops.get(now);
    if (!other || !same(hop, other) || ground(name, now) !== undefined) continue;
    if (!same(licencesFor(was.design, name).map(unplaced), licencesFor(is.design, now).map(unplaced)))
      continue;
    differ[0].delete(name);
    differ[1].delete(now);
    alike.push([hop, other]);
  }
  const isTouched = differ.some(({ size }) => size > 0);
  // A hop that changes may harm a receiver of others together with hops that do not, and demands far away.
  const isFarReaching = [was, is].some(
    ({ design }) => (design.others ?? []).length > 0 || design.demands !== undefined,
  );
  if (!sameAround(was, is) || !sameCarried(was, is) || (isTouched && isFarReaching))
    return [new Set(was.hops.keys()), new Set(is.hops.keys())];
  for (const [before, now] of alike) if (before.name === now.name) noteAlike(before, now);
  // One that is evaluated on one side only would seem to have its findings from the change.
  const near = new Set([
    ...[...withNeighbours(differ[0], was)].map((name) => hopNow(name, renames)),
    ...withNeighbours(differ[1], is),
  ]);
  return [new Set([...near].flatMap((name) => before.get(name) ?? [])), near];
}

/** A licence without its place among the others, which says nothing of the hop. */
function unplaced({ at: _, ...licence }: Licence): Omit<Licence, "at"> {
  return licence;
}

/** Whether both sides are to carry the same. Where they are not, all hops together say what becomes of it. */
function sameCarried(was: Side, is: Side): boolean {
  const [before, now] = [was.design, is.design];
  const same = contentComparison();
  return (
    same([...(before.demands ?? [])], [...(now.demands ?? [])]) &&
    same(before.traffic, now.traffic) &&
    same([...(before.trafficAt ?? [])], [...(now.trafficAt ?? [])])
  );
}

/** Whether both sides state the same of interference and of others. Where they do not, every hop may differ. */
function sameAround(was: Side, is: Side): boolean {
  const [before, now] = [was.design, is.design];
  const same = contentComparison();
  const isSame =
    same(before.interference, now.interference) &&
    same([...(before.interferenceAt ?? [])], [...(now.interferenceAt ?? [])]) &&
    same(before.others, now.others);
  return (
    isSame && (before.others ?? []).every(({ file }) => was.ground.fileFor(file) === is.ground.fileFor(file))
  );
}

/**
 * Judging what hops share needs the results of all hops at a site, so those beside a hop that differs are evaluated
 * too, and those that feel what it sends. A rule that looks further must widen this.
 */
function withNeighbours(names: ReadonlySet<string>, { hops, design }: Side): Set<string> {
  const sites = new Set([...names].flatMap((name) => hops.get(name)!.ends.map(({ site }) => site.name)));
  const beside = [...hops.values()].filter(({ ends }) => ends.some(({ site }) => sites.has(site.name)));
  return new Set([...names, ...beside.map(({ name }) => name), ...feltBy(design, names)]);
}

/** Of a session that has evaluated more, what is not wanted is left out: it would be judged on one side only. */
function comparedSide(
  { session, ground, memory, decisions, design }: Side,
  wanted: ReadonlySet<string>,
): ComparedSide {
  const hops = new Map<string, ComparedHop>();
  const results = new Map<string, HopResult>();
  for (const name of wanted) {
    const judged = session.result(name);
    if (!judged) continue;
    hops.set(name, { ...withShownFiles(judged, ground), hears: hopsHeard(session.interference.of(name)) });
    results.set(name, judged.result);
  }
  const ofNetwork = session.judgeNetworkOf(results, { design, memory });
  const findings = [...ofNetwork, ...textFindings(session.model)];
  return { decisions, design, hops, findings, demands: demandsInNetwork(design, results, memory) };
}

/** Terrain of a commit is read from elsewhere than where people know it. */
function withShownFiles({ hop, result, findings }: SessionHop, { shown }: SideGround): ComparedHop {
  return {
    hop,
    result,
    findings: findings.map((finding) =>
      finding.related?.some(({ file }) => file !== undefined)
        ? {
            ...finding,
            related: finding.related.map((one) =>
              one.file === undefined ? one : { ...one, file: shown(one.file) },
            ),
          }
        : finding,
    ),
  };
}

/** Hops whose transmissions come in, the strongest first. */
function hopsHeard(found: readonly InterferenceAt[]): readonly string[] {
  const senders = found.flatMap(({ entries, coLocated }) => [...entries, ...coLocated]);
  return [...new Set(senders.flatMap(({ sender: { of } }) => (isOwn(of) ? [of.hop] : [])))];
}
