/**
 * A change of facts, as data: what is to be stated, replaced or taken away, by addresses of the design. A rule proposes it
 * (`shared/rules/fixes/`); one place writes it into a text (`language/editor/fixes/write.ts`) and says where it finds none.
 */
import type { Address } from "./address.js";

export type FactChange =
  /** In the place of the statement of the same word, or of one of `instead`; else a new line in a block. */
  | {
      readonly do: "state";
      /** Block of a hop, an end, a site, a demand, a chassis or a service at a site. */
      readonly in: Address;
      /** As the language writes it: a word, and what is said with it. */
      readonly line: string;
      readonly instead?: readonly string[];
      /** Only in the place of a statement of which this argument is so. */
      readonly where?: { readonly argument: string; readonly is: string };
      /** There is no such change where the statement says when it stands: that would be lost. */
      readonly bare?: true;
    }
  /** New lines beside what stands there. */
  | {
      readonly do: "add";
      readonly in: Address;
      readonly lines: readonly string[];
      /** There is no such change where a line of the word stands already. */
      readonly once?: true;
    }
  | { readonly do: "replace"; readonly at: Address; readonly argument: string; readonly by: string }
  /** Another word for what is stated; none where that word stands already. */
  | { readonly do: "rename"; readonly at: Address; readonly to: string }
  /** Words behind what a statement says. */
  | {
      readonly do: "append";
      readonly at: Address;
      readonly words: string;
      /** Left out where there is no such statement. */
      readonly optional?: true;
    }
  | { readonly do: "remove"; readonly at: Address; readonly optional?: true }
  /** The first of them that finds a place. */
  | { readonly do: "first"; readonly of: readonly FactChange[] };

/** What mends a finding: all of its changes, or none. */
export interface Fix {
  /** What it writes, and for a decision what it changes. */
  readonly title: string;
  readonly changes: readonly FactChange[];
  /** Whether it changes what was decided; such a fix is never part of mending all at once. */
  readonly changesDecision: boolean;
}
