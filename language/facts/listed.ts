/** Several names in one argument, parted by commas: `route via KELD-TARN, RIDGE`. */
import { alternatives } from "../schema/index.js";
import type { ArgSpec, Property } from "../schema/types.js";
import type { Atom } from "../syntax/tree.js";
import { OPEN, problem, unfinished } from "./complaints.js";
import type { Argument, TextProblem } from "./fact.js";
import { describe, fits, readValue } from "./value.js";

const COMMA = ",";

export function isComma({ text }: Pick<Atom, "text">): boolean {
  return text === COMMA;
}

/** The same atoms, where commas stuck to names (`RIDGE,`) are atoms of their own; of statements without lists as they are. */
export function parted(property: Property | undefined, atoms: readonly Atom[]): readonly Atom[] {
  if (!property?.args.some(({ list }) => list)) return atoms;
  return atoms.flatMap((atom) => {
    if (atom.kind !== "word" || !atom.text.includes(COMMA)) return [atom];
    let start = atom.start;
    return atom.text
      .split(/(,)/)
      .map((text): Atom => {
        const piece: Atom = { kind: "word", text, start, end: start + text.length };
        start = piece.end;
        return piece;
      })
      .filter(({ text }) => text !== "");
  });
}

/**
 * Each name is an argument of its own. Blanks part names too: nothing else can be meant.
 * @param isLabel whether another argument is announced there
 * @returns the atom behind the list
 */
export function readList(
  { property, spec }: { readonly property: Property; readonly spec: ArgSpec },
  atoms: readonly Atom[],
  from: number,
  isLabel: (at: number) => boolean,
  into: { readonly args: Argument[]; readonly problems: TextProblem[] },
): number {
  const [value] = alternatives(spec);
  let at = from;
  let lacking = true;
  for (; at < atoms.length && (lacking || !isLabel(at)); at++) {
    const atom = atoms[at]!;
    const { start, end } = atom;
    if (isComma(atom)) {
      if (lacking)
        into.problems.push(
          problem("missing-value", atom, `${describe(value!)} is missing before this comma`),
        );
      lacking = true;
      continue;
    }
    lacking = false;
    if (atom.text === OPEN) {
      into.problems.push(unfinished(property, spec, start, end));
      into.args.push({ spec, open: true, start, end });
    } else if (fits(value!, atom)) {
      into.args.push({ spec, value: readValue(value!, atoms, at).value, start, end });
    } else {
      const message = `${spec.name} is ${describe(value!)}, not ${atom.text}`;
      into.problems.push(problem("unexpected-value", atom, message));
      into.args.push({ spec, start, end });
    }
  }
  const last = atoms[at - 1];
  if (lacking && last && isComma(last))
    into.problems.push(problem("missing-value", last, `${describe(value!)} is missing behind this comma`));
  return at;
}
