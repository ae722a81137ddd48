/**
 * What is to be stated, as statements of the language: whole sites, hops and parts that are new, and single facts of
 * those that are there. How a statement gets into a text is the language's concern.
 */

/** A statement: its word and the arguments behind it, in the order and the spelling of the language. */
export interface Statement {
  readonly word: string;
  readonly args: readonly StatementArg[];
}

export interface StatementArg {
  /** Of the property table. */
  readonly name: string;
  /** The word or slash in front of it. */
  readonly label?: string;
  readonly text: string;
  /** What was asked to be said, other than what stands there already. */
  readonly changed?: true;
}

export interface NewSite {
  readonly name: string;
  readonly title?: string;
  readonly facts: readonly Statement[];
}

export interface NewHop extends NewSite {
  readonly ends: readonly { readonly site: string; readonly facts: readonly Statement[] }[];
}

export interface NewPart {
  readonly kind: "antenna" | "radio" | "coupler" | "feeder";
  readonly name: string;
  readonly facts: readonly Statement[];
}

/** A fact of something that is there, to be stated in its block. */
export interface ListedChange {
  /** `site KELD`, `hop KELD-TARN`, `hop KELD-TARN / TARN`. */
  readonly at: string;
  readonly statement: Statement;
}

export function statement(word: string, ...args: readonly (StatementArg | undefined)[]): Statement {
  return { word, args: args.filter((arg) => arg !== undefined) };
}

export function lineOf({ word, args }: Statement): string {
  return [word, ...args.flatMap(({ label, text }) => (label === undefined ? [text] : [label, text]))].join(
    " ",
  );
}
