import type { Hop } from "../../shared/design/design.js";
import type { AheadStore, Path } from "../terrain/ahead.js";

/** Hops asked for at once (the first answer must not be long in coming), and hops that the asking stays ahead. */
const LIST = 32;
const LEAD = 512;

/**
 * Keeps the reading of terrain some hundred hops ahead of their evaluation: far enough that the other thread
 * never waits, near enough that profiles don't pile up.
 * @returns to be called before each hop with its place among the names
 */
export function askingAhead(
  store: AheadStore,
  names: readonly string[],
  hopOf: (name: string) => Hop | undefined,
): (index: number) => void {
  let asked = 0;
  return (index) => {
    while (asked < names.length && asked < index + LEAD) {
      const paths = names.slice(asked, asked + LIST).flatMap((name): Path[] => {
        const hop = hopOf(name);
        const [from, to] = [hop?.ends[0].site.position, hop?.ends[1].site.position];
        return from && to && hop?.surveyFile === undefined ? [[from, to]] : [];
      });
      asked += LIST;
      if (paths.length > 0) store.ask(paths);
    }
  };
}
