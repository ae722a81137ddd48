/** Arrangements of an end: those that go with the other end's stand first. */
import { goTogether } from "../../shared/radio/arrangement-pairs.js";
import { arrangementByName } from "../../shared/radio/arrangements.js";
import { factNamed, wordOf } from "../facts/fact.js";
import { END } from "../schema/index.js";
import { hopFact, hopFacts, type Scene } from "./scene.js";

/** Lower comes first; words that are none of an end's arrangement are alike. */
export function arrangementRank(scene: Scene, name: string): number {
  const far = arrangementByName(farArrangement(scene));
  const facts = arrangementByName(name);
  return far !== undefined && facts !== undefined && goTogether(far, facts) ? 0 : 1;
}

/** As the other end states it, else the hop. */
function farArrangement(scene: Scene): string {
  const here = scene.caret.enclosing.findLast(({ context }) => context === "end");
  const far = hopFacts(scene)?.find((fact) => fact.property === END && fact !== here);
  const stated = (far && factNamed(far.facts, "arrangement")) ?? hopFact(scene, "arrangement");
  return wordOf(stated, "value") ?? "1+0";
}
