/**
 * Channels to choose for several hops at once, as a problem of its own: who may be on which channel, and what each sender
 * brings to each receiver on each pair of channels. What is fixed (hops that state their channel, others' transmissions)
 * has one choice.
 */

/** A channel with a polarization. */
export interface Choice {
  /** The same text for the same channel: it is counted once, however many use it. */
  readonly channel: string;
  /** Width that its use takes. */
  readonly widthHz: number;
  /** Place among the channels and among the polarizations of its actor. */
  readonly numberAt: number;
  readonly polarizationAt: number;
}

/** A hop, or a transmission of others. */
export interface Actor {
  readonly name: string;
  /** Best for nothing else first: ties go to the first. */
  readonly choices: readonly Choice[];
}

/** A receiver of an actor, with what it is allowed: I/N as a power ratio; undefined: any. */
export interface ReceiverToKeep {
  readonly actor: number;
  readonly sum?: number;
  readonly single?: number;
  readonly short?: number;
}

/** One sender of an actor at one receiver of another. */
export interface Link {
  readonly sender: number;
  readonly receiver: number;
  /** I/N as power ratios before filters, by polarization of the sender's choice (rows) and of the receiver's. */
  readonly sum: Float64Array;
  readonly single: Float64Array;
  readonly short: Float64Array;
  /** What the filters leave, by channel of the sender's choice (rows) and of the receiver's. */
  readonly filter: Float64Array;
  /** Columns of both. */
  readonly polarizations: number;
  readonly numbers: number;
}

export interface Problem {
  readonly actors: readonly Actor[];
  readonly receivers: readonly ReceiverToKeep[];
  readonly links: readonly Link[];
}

/** What is to be little: first the one, then the other. */
export interface Cost {
  /** Receivers that pass what they are allowed. */
  readonly violations: number;
  /** Widths of all channels in use, each once. */
  readonly spectrumHz: number;
  /** Rises of all thresholds together. */
  readonly degradationDb: number;
}

const LEAST_DB = 1e-6;

/** Below 0: the first is better. */
export function compareCost(a: Cost, b: Cost): number {
  return a.violations - b.violations || a.spectrumHz - b.spectrumHz || degradationMore(a, b);
}

function degradationMore(a: Cost, b: Cost): number {
  const more = a.degradationDb - b.degradationDb;
  return Math.abs(more) < LEAST_DB ? 0 : more;
}

/** Not chosen: it neither sends nor hears. */
export const OPEN = -1;

/** An assignment with its cost, kept up to date move by move. */
export class Tally {
  /** By actor; `OPEN`: none. */
  readonly chosen: Int32Array;
  private readonly sums: Float64Array;
  /** How many senders alone pass a limit of the receiver, in the long and in the short term. */
  private readonly faults: Int32Array;
  private readonly from: readonly Link[][];
  private readonly to: readonly Link[][];
  private readonly own: readonly number[][];
  private readonly users = new Map<string, number>();
  private violations = 0;
  private spectrumHz = 0;
  private degradationDb = 0;

  constructor(readonly problem: Problem) {
    const { actors, receivers, links } = problem;
    this.chosen = new Int32Array(actors.length).fill(OPEN);
    this.sums = new Float64Array(receivers.length);
    this.faults = new Int32Array(receivers.length);
    this.from = actors.map(() => []);
    this.to = receivers.map(() => []);
    this.own = actors.map(() => []);
    for (const [at, { actor }] of receivers.entries()) this.own[actor]!.push(at);
    for (const link of links) {
      this.from[link.sender]!.push(link);
      this.to[link.receiver]!.push(link);
    }
  }

  get cost(): Cost {
    const { violations, spectrumHz, degradationDb } = this;
    return { violations, spectrumHz, degradationDb };
  }

  isUsed(channel: string): boolean {
    return this.users.has(channel);
  }

  /** Channels in use with how often, in the order in which they came. */
  channels(): ReadonlyMap<string, number> {
    return this.users;
  }

  move(actor: number, choice: number): void {
    const before = this.chosen[actor]!;
    if (before === choice) return;
    this.use(actor, before, -1);
    for (const receiver of this.own[actor]!) this.count(receiver, -1);
    for (const link of this.from[actor]!) {
      const hearing = this.problem.receivers[link.receiver]!.actor;
      if (this.chosen[hearing] === OPEN) continue;
      this.count(link.receiver, -1);
      if (before !== OPEN) this.add(link, before, this.chosen[hearing]!, -1);
      if (choice !== OPEN) this.add(link, choice, this.chosen[hearing]!, 1);
      this.count(link.receiver, 1);
    }
    this.chosen[actor] = choice;
    for (const receiver of this.own[actor]!) {
      this.hear(receiver);
      this.count(receiver, 1);
    }
    this.use(actor, choice, 1);
  }

  /** All sums afresh: what was taken off and put on again left traces. */
  refresh(): void {
    this.violations = 0;
    this.degradationDb = 0;
    for (let receiver = 0; receiver < this.sums.length; receiver++) {
      this.hear(receiver);
      this.count(receiver, 1);
    }
  }

  private hear(receiver: number): void {
    this.sums[receiver] = 0;
    this.faults[receiver] = 0;
    const own = this.chosen[this.problem.receivers[receiver]!.actor]!;
    if (own === OPEN) return;
    for (const link of this.to[receiver]!) {
      const sends = this.chosen[link.sender]!;
      if (sends !== OPEN) this.add(link, sends, own, 1);
    }
  }

  private add(link: Link, sends: number, hears: number, sign: 1 | -1): void {
    const { actors, receivers } = this.problem;
    const receiver = receivers[link.receiver]!;
    const [of, at] = [actors[link.sender]!.choices[sends]!, actors[receiver.actor]!.choices[hears]!];
    const filter = link.filter[of.numberAt * link.numbers + at.numberAt]!;
    if (filter === 0) return;
    const relation = of.polarizationAt * link.polarizations + at.polarizationAt;
    this.sums[link.receiver]! += sign * filter * link.sum[relation]!;
    if (receiver.single !== undefined && filter * link.single[relation]! > receiver.single)
      this.faults[link.receiver]! += sign;
    if (receiver.short !== undefined && filter * link.short[relation]! > receiver.short)
      this.faults[link.receiver]! += sign;
  }

  private count(receiver: number, sign: 1 | -1): void {
    const { actor, sum } = this.problem.receivers[receiver]!;
    if (this.chosen[actor] === OPEN) return;
    const power = Math.max(0, this.sums[receiver]!);
    if (this.faults[receiver]! > 0 || (sum !== undefined && power > sum)) this.violations += sign;
    this.degradationDb += sign * 10 * Math.log10(1 + power);
  }

  private use(actor: number, choice: number, sign: 1 | -1): void {
    if (choice === OPEN) return;
    const { channel, widthHz } = this.problem.actors[actor]!.choices[choice]!;
    const was = this.users.get(channel) ?? 0;
    if (was + sign === 0) this.users.delete(channel);
    else this.users.set(channel, was + sign);
    if (was === 0 || was + sign === 0) this.spectrumHz += sign * widthHz;
  }
}
