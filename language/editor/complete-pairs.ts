/** Names for a new hop: pairs of sites near each other that no hop joins yet, the nearest first. */
import type { Position } from "../../shared/design/design.js";
import type { DesignModel } from "../model/design-model.js";
import type { Proposal } from "./proposal.js";
import type { Scene } from "./scene.js";

/** Longer hops are seldom; whoever plans one writes its name. */
const LONGEST_M = 100_000;
const MOST_PAIRS = 40;
/** Of more sites than this only those count whose name begins as typed. */
const MOST_SITES = 400;

interface Placed {
  readonly name: string;
  readonly at: Position;
}

export function hopNames({ model, caret }: Scene): readonly Proposal[] {
  const block = caret.fact?.statement.block === undefined;
  return nearPairs(model, caret.word?.text ?? "").map(({ from, to, lengthM }, index) => {
    const name = `${from}-${to}`;
    return {
      label: name,
      kind: "name",
      insertText: block ? `${name} {\n  ${end(from, 1, "high")}\n  ${end(to, 3, "low")}\n}` : name,
      snippet: block || undefined,
      detail: `${(lengthM / 1000).toFixed(1)} km`,
      rank: index,
    };
  });
}

function end(site: string, stop: number, half: string): string {
  return `${site} {\n    antenna $${stop} at \${${stop + 1}:20} m\n    transmits ${half}\n  }`;
}

function nearPairs(model: DesignModel, typed: string) {
  const sites = model.names("site").flatMap((name): Placed[] => {
    const at = model.lookup.site(name)?.position;
    return at ? [{ name, at }] : [];
  });
  const joined = new Set(
    model.names("hop").flatMap((name) => {
      const ends = model.hop(name)?.hop?.ends.map(({ site }) => site.name);
      return ends ? [ends.join(" "), ends.toReversed().join(" ")] : [];
    }),
  );
  const first = typed.split("-")[0]!.toUpperCase();
  const starting = sites.filter(({ name }) => name.toUpperCase().startsWith(first));
  const from = sites.length <= MOST_SITES ? sites : starting.slice(0, MOST_SITES);
  const pairs = from.flatMap((a, index) =>
    (from === sites ? sites.slice(index + 1) : sites).flatMap((b) => {
      if (a.name === b.name || joined.has(`${a.name} ${b.name}`)) return [];
      const lengthM = roughLengthM(a.at, b.at);
      return lengthM <= LONGEST_M ? [{ from: a.name, to: b.name, lengthM }] : [];
    }),
  );
  return pairs.sort((a, b) => a.lengthM - b.lengthM).slice(0, MOST_PAIRS);
}

/** On the sphere, good enough to order by and to show. */
function roughLengthM(a: Position, b: Position): number {
  const [north, east] = [a.latitudeDeg - b.latitudeDeg, Math.abs(a.longitudeDeg - b.longitudeDeg) % 360];
  const parallel = Math.cos(((a.latitudeDeg + b.latitudeDeg) / 2) * (Math.PI / 180));
  return 111_195 * Math.hypot(north, Math.min(east, 360 - east) * parallel);
}
