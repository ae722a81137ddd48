/** The way of a branch through the wiring of its site, from the port indoors to the antenna. */
import type { Branch } from "../../../../equipment/branches.js";
import type { UnitSetting } from "../../../../equipment/units.js";
import { unitId } from "../../../../equipment/wiring/ids.js";
import type { Joint, LooseEnd, Wiring } from "../../../../equipment/wiring/wiring.js";
import type { ChainLine, ChainStep, JointStep, PartStep } from "./chain.js";

/** The walk alone; figures come on top. */
const NO_FIGURES = { send: { passed: [] }, receive: { passed: [] } } as const;

interface Asked {
  readonly hop: string;
  readonly branch: Branch;
  readonly unit: UnitSetting;
}

export function joinedWay(wiring: Wiring, asked: Asked): Pick<ChainLine, "steps" | "lacks" | "feed"> {
  const index = indexOf(wiring);
  const { outwards, inwards } = index;
  const id = unitId(asked.hop, asked.branch.name);
  const unit = wiring.parts.get(id);
  if (unit === undefined) return { steps: [], lacks: [] };
  const steps: ChainStep[] = [];
  const into = inwards.get(id)?.find(({ carries }) => carries.kind === "hop" && carries.hop === asked.hop);
  const from = into && wiring.parts.get(into.ends[0].part);
  if (into && from) {
    steps.push({ kind: "part", part: from, outer: into.ends[0].port, ...NO_FIGURES });
    steps.push({ kind: "joint", joint: into, ...NO_FIGURES });
  }
  const pole = poleWords(asked);
  const passed = new Set<string>();
  let part: PartStep = { kind: "part", part: unit, inner: into?.ends[1].port, ...NO_FIGURES };
  for (;;) {
    passed.add(part.part.id);
    const joint = pick(outwards.get(part.part.id) ?? [], asked, pole);
    const next = joint && wiring.parts.get(joint.ends[1].part);
    if (joint === undefined || next === undefined || passed.has(next.id)) break;
    steps.push({ ...part, outer: joint.ends[0].port });
    steps.push({ kind: "joint", joint, ...NO_FIGURES } satisfies JointStep);
    part = { kind: "part", part: next, inner: joint.ends[1].port, ...NO_FIGURES };
  }
  steps.push(part);
  const feed = inwards.get(id)?.find(({ carries }) => carries.kind === "feed");
  return { steps, lacks: lacksOf(index, steps, id, pole), ...(feed && { feed }) };
}

/** The joint that carries the branch on: its own, else that of all that its part passes in its polarization. */
function pick(joints: readonly Joint[], { hop, branch }: Asked, pole: string): Joint | undefined {
  const of = joints.filter(({ carries }) => carries.kind === "hop" && carries.hop === hop);
  const own = of.find(({ carries }) => carries.kind === "hop" && carries.branch === branch.name);
  const common = of.filter(({ carries }) => carries.kind === "hop" && carries.branch === undefined);
  return own ?? common.find(({ ends }) => ends[0].port.endsWith(pole)) ?? common[0];
}

/** As ports of couplers and antennas name it. */
function poleWords({ branch, unit }: Asked): string {
  return unit.polarization ?? (branch.polarization === 1 ? "first polarization" : "second polarization");
}

function lacksOf(
  { loose }: Index,
  steps: readonly ChainStep[],
  unit: string,
  pole: string,
): LooseEnd["lacks"][] {
  const last = steps.at(-1);
  const own = loose.get(unit) ?? [];
  // A coupler that leads nowhere lacks it for the branches of that polarization.
  const behind =
    last?.kind === "part" && last.part.id !== unit
      ? (loose.get(last.part.id) ?? []).filter(({ port }) => !port.includes(",") || port.endsWith(pole))
      : [];
  return [...own, ...behind].map(({ lacks }) => lacks);
}

interface Index {
  /** Joints by the part that they lead from, and to. */
  readonly outwards: ReadonlyMap<string, readonly Joint[]>;
  readonly inwards: ReadonlyMap<string, readonly Joint[]>;
  readonly loose: ReadonlyMap<string, readonly LooseEnd[]>;
}

const indexes = new WeakMap<Wiring, Index>();

/** A site may have a thousand ends. */
function indexOf(wiring: Wiring): Index {
  let known = indexes.get(wiring);
  if (known === undefined) {
    const { joints } = wiring;
    const by = (end: 0 | 1) => Map.groupBy(joints, ({ ends }) => ends[end].part);
    const loose = Map.groupBy(wiring.loose, ({ part }) => part);
    indexes.set(wiring, (known = { outwards: by(0), inwards: by(1), loose }));
  }
  return known;
}
