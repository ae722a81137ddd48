/** What a network is for, as a plan would have it: nearly all traffic leaves at a few places, the rest goes to centres. */
import { randomNumbers } from "../random.js";
import type { NetworkText } from "./network.js";

/** One site of so many is where traffic leaves. */
const SITES_A_HANDOVER = 450;
const CENTRES = 20;

/** The same network with demands. */
export function withDemands(files: NetworkText, count: number, seed = 23): NetworkText {
  const random = randomNumbers(seed);
  const all = new Map(files);
  const sites = [...files].flatMap(([path, text]) =>
    path.startsWith("sites/") ? [...text.matchAll(/^site (\S+)/gm)].map(([, name]) => name!) : [],
  );
  const handovers = new Set(sites.filter((_, index) => index % SITES_A_HANDOVER === 0));
  for (const [path, text] of files) {
    if (!path.startsWith("sites/")) continue;
    all.set(
      path,
      text.replace(/^site (\S+).*\{$/gm, (line, name) =>
        handovers.has(name) ? `${line}\n  handover` : line,
      ),
    );
  }
  const one = (of: readonly string[]) => of[Math.floor(random() * of.length)]!;
  const centres = sites.filter((_, index) => index % Math.ceil(sites.length / CENTRES) === 7);
  const demands = Array.from({ length: count }, (_, index) => {
    const from = one(sites);
    const to = random() < 0.9 ? "handover" : one(centres);
    const ends = to === from ? "handover" : to;
    const second = random() < 0.1 ? "\n  second-route disjoint hop" : "";
    return `demand D${index + 1} {
  from ${from} to ${ends}
  committed ${5 + Math.floor(random() * 40)} Mbit/s
  availability 99.9 %
  latency 20 ms${second}
}`;
  });
  all.set("demands.hop", `${demands.join("\n\n")}\n`);
  return all;
}
