/** Choices of one fuzzed case, all from its seed. */
import { randomNumbers } from "../bench/random.js";

export class Chance {
  private readonly next: () => number;

  constructor(seed: number) {
    // Neighbouring seeds must not begin alike.
    this.next = randomNumbers(Math.imul(seed ^ (seed >>> 15), 0x2c1b3c6d) ^ 0x297a2d39);
  }

  /** A whole number from 0 to below `count`. */
  below(count: number): number {
    return Math.floor(this.next() * count);
  }

  likely(share: number): boolean {
    return this.next() < share;
  }

  of<T>(list: readonly T[]): T {
    return list[this.below(list.length)]!;
  }

  /** Some of a list, at least one: what is never switched off hides what only others reach. */
  some<T>(list: readonly T[], share: number): readonly T[] {
    const kept = list.filter(() => this.likely(share));
    return kept.length > 0 ? kept : [this.of(list)];
  }

  seed(): number {
    return this.below(2 ** 31);
  }
}
