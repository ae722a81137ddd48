import { address } from "../design/address.js";
import { skeleton } from "../format/look-alikes.js";
import type { NetworkRule } from "./rule.js";

const SITE = (name: string) => `site ${name} {\n  at 47.55 -30.45\n}`;

export const namesLookAlike: NetworkRule = {
  scope: "network",
  id: "names-look-alike",
  severity: "warning",
  title: "Two names can be told apart",
  checks:
    "Names of sites and of hops that differ only in letters of other scripts that look the same, in signs that are not seen, or in how an accent is stored.",
  why: "Whoever reads the design takes the two for one, and a change of the one for a change of the other.",
  fix: "Rename one of them.",
  source: "Unicode Technical Standard #39 (which letters look alike is from memory)",
  good: SITE("FELL"),
  // Beside TARN: this A is a Greek letter.
  bad: SITE("T\u0391RN"),
  check({ design, memory, report }) {
    for (const [kind, named] of [
      ["site", design.sites],
      ["hop", design.hops],
    ] as const) {
      const looks = memory.each(LOOKS[kind], [...named.keys()], looksOf);
      for (const { name, other } of memory.of(ALIKE, looks, alikeAmong))
        report({
          at: address(kind, name),
          message: `${kind} ${name} looks like ${kind} ${other}, and is another`,
          help: "Rename one of them.",
          related: [{ at: address(kind, other), message: `the other ${kind}` }],
        });
    }
  },
};

const LOOKS = { site: {}, hop: {} };
const ALIKE = {};

interface Looks {
  readonly name: string;
  /** Of all names that look the same the same. */
  readonly as: string;
}

function looksOf(name: string): Looks {
  return { name, as: skeleton(name) };
}

/** Each name with the first that looks like it. */
function alikeAmong(all: readonly Looks[]): readonly { readonly name: string; readonly other: string }[] {
  const first = new Map<string, string>();
  return all.flatMap(({ name, as }) => {
    const other = first.get(as);
    if (other === undefined) first.set(as, name);
    return other === undefined ? [] : [{ name, other }];
  });
}
