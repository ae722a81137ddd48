/** Arrangements that a reader may mean by the words of the trade. */
import { ARRANGEMENTS, type ArrangementFacts } from "../../radio/arrangements.js";

/** Everyday words and what they ask of an arrangement. Common practice, no source. Longer ones stand before what they hold. */
const EVERYDAY: readonly (readonly [RegExp, (facts: ArrangementFacts) => boolean])[] = [
  [/\bspace (?:and|&) frequency diversity\b|\bs(?:fd|d ?\+ ?fd)\b|\bhybrid diversity\b/, isSpaceAndFrequency],
  [/\bspace div(?:ersity)?\b|\bsd\b/, ({ spaceDiversity }) => spaceDiversity],
  [/\bfrequency div(?:ersity)?\b|\bfd\b/, isFrequencyDiversity],
  [/\b(?:monitored )?(?:hot ?standby)\b|\bm?hsb\b|\bhs\b/, ({ hotStandby }) => hotStandby],
  [/\bunprotected\b/, ({ name }) => /\b1\+0$/.test(name)],
  [/\bdual ?band\b|\bmulti ?band\b/, ({ bandOfPair }) => bandOfPair !== undefined],
  [/\bxpic\b|\bcross polar(?:ization)? interference cancell?er\b|\bccdp\b/, ({ xpicPairs }) => xpicPairs > 0],
  [/\bdual ?pol(?:arization|arized)?\b/, ({ dualPolarized, xpicPairs }) => dualPolarized && xpicPairs === 0],
  [/\bsingle pol(?:arization|arized)?\b/, ({ name }) => name.includes("single-polarization")],
  [/\b(?:all|full) ?outdoor\b/, ({ construction }) => construction === "all-outdoor"],
  [/\b(?:all|full) ?indoor\b/, ({ construction }) => construction === "all-indoor"],
  [/\bsplit ?mount\b/, ({ construction }) => construction === "split-mount"],
];

function isFrequencyDiversity({ protection }: ArrangementFacts): boolean {
  return protection === "frequency-diversity";
}

function isSpaceAndFrequency(facts: ArrangementFacts): boolean {
  return facts.spaceDiversity && isFrequencyDiversity(facts);
}

/**
 * All of the words, in any place of the name or as the trade says them; upper and lower case and dashes make no
 * difference.
 */
export function arrangementsMeant(words: string): readonly ArrangementFacts[] {
  const asked = words.trim().toLowerCase().replace(/\s+/g, " ");
  if (asked === "" || asked.length > 200) return [];
  const named = ARRANGEMENTS.filter(({ name }) => {
    const known = name.split(" ");
    return asked.split(" ").every((word) => known.includes(word));
  });
  if (named.length > 0) return named;
  let rest = asked.replace(/(?<=[a-z])-(?=[a-z])/g, " ");
  const wishes: ((facts: ArrangementFacts) => boolean)[] = [];
  for (const [pattern, suits] of EVERYDAY) {
    if (!pattern.test(rest)) continue;
    rest = rest.replace(pattern, " ");
    wishes.push(suits);
  }
  const left = rest.split(/[\s,/()]+/).filter((word) => word !== "");
  if (wishes.length === 0) return [];
  return ARRANGEMENTS.filter(
    (facts) =>
      wishes.every((suits) => suits(facts)) && left.every((word) => facts.name.split(" ").includes(word)),
  );
}
