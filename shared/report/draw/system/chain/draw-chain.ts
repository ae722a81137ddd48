/** The chain of a hop as a drawing: every branch at both ends, from the port indoors to the air. */
import type { Hop } from "../../../../design/design.js";
import type { SitePlan } from "../../../../equipment/site-plan.js";
import { standsOf } from "../../../../equipment/stands.js";
import { labelsOf } from "../../../../equipment/wiring/labels.js";
import { siteWiring } from "../../../../equipment/wiring/site-wiring.js";
import type { Wiring } from "../../../../equipment/wiring/wiring.js";
import type { HopResult } from "../../../../evaluate/account/result.js";
import { dbm } from "../../../../format/numbers.js";
import { arrangementWords, factsAt } from "../../../../radio/arrangement-pairs.js";
import { SINGLE } from "../../../../radio/arrangements.js";
import { draw } from "../placed.js";
import type { HopChain } from "./chain.js";
import { hopChain } from "./hop-chain.js";
import { layoutChain, NARROW_CHAIN, WIDE_CHAIN } from "./layout.js";
import type { Around } from "./words.js";

export interface DrawnChain {
  readonly svg: string;
  readonly narrow: string;
  readonly alt: string;
  readonly caption: string;
}

/** @returns undefined where nothing can be drawn, since nothing says which units there are */
export function drawChain(
  hop: Hop,
  result: HopResult,
  plans: ReadonlyMap<string, SitePlan>,
): DrawnChain | undefined {
  const wirings = hop.ends.map(({ site }) => {
    const plan = plans.get(site.name);
    return plan && siteWiring(plan);
  });
  const chain = hopChain(hop, result, [wirings[0], wirings[1]]);
  const around = [aroundOf(hop, 0, wirings[0]), aroundOf(hop, 1, wirings[1])] as const;
  const wide = layoutChain(chain, around, WIDE_CHAIN);
  const narrow = layoutChain(chain, around, NARROW_CHAIN);
  if (wide === undefined || narrow === undefined) return undefined;
  return {
    svg: draw(wide),
    narrow: draw(narrow),
    alt: altText(hop, chain),
    caption: captionText(chain, result),
  };
}

function aroundOf(hop: Hop, at: 0 | 1, wiring: Wiring | undefined): Around {
  const end = hop.ends[at];
  const labels = wiring && numbersOf(wiring);
  return {
    hop: hop.name,
    end,
    stands: standsOf(end, factsAt(hop, end) ?? SINGLE),
    cableNumber: ({ joint }) => labels?.get(joint)?.cable,
  };
}

const numbers = new WeakMap<Wiring, ReturnType<typeof labelsOf>>();

/** A site may have a thousand hops. */
function numbersOf(wiring: Wiring): ReturnType<typeof labelsOf> {
  let known = numbers.get(wiring);
  if (known === undefined) numbers.set(wiring, (known = labelsOf(wiring)));
  return known;
}

function altText(of: Hop, { hop, ends }: HopChain): string {
  const said = ends.map(({ site, lines }) => {
    const arrives = lines.flatMap(({ receive }) => receive?.unitDbm ?? []);
    const levels = arrives.length === 0 ? "" : `, at best ${dbm(Math.max(...arrives))} at its input`;
    return `${lines.length} ${lines.length === 1 ? "unit" : "units"} at ${site}${levels}`;
  });
  return `Chain of ${hop}, ${arrangementWords(of)}, from the ports indoors to the antennas of both ends: ${said.join("; ")}`;
}

const LACK_WORDS: Readonly<Record<HopChain["lacks"][number], string>> = {
  arrangement: "the arrangement",
  radio: "the radio",
  level: "levels of both directions",
};

function captionText({ ends, lacks }: HopChain, { directions }: HopResult): string {
  const mode = directions[0]?.modes.at(-1)?.modulation;
  const lines = ends.flatMap((end) => end.lines);
  const waits = lines.some(({ branch }) => !branch.radiates);
  const proposed = lines.some(({ steps }) =>
    steps.some((step) => (step.kind === "part" ? step.part.proposed : step.joint.proposed)),
  );
  const said = [
    directions.length === 0
      ? undefined
      : `Levels in clear air${mode === undefined ? "" : `, ${mode}`}: an arrow towards the antenna for what is sent, from it for what arrives`,
    waits ? "a unit that waits with the levels that it has when this end switches to it" : undefined,
    proposed ? "a dashed line is proposed, not stated" : undefined,
    lacks.length > 0 ? `not known: ${lacks.map((lack) => LACK_WORDS[lack]).join(", ")}` : undefined,
  ].filter((part) => part !== undefined);
  const text = said.join("; ");
  return text === "" ? "" : `${text[0]!.toUpperCase()}${text.slice(1)}.`;
}
