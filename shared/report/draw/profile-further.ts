/** The antennas of each end beside the first, and the rays that they are there for. */
import type { Hop } from "../../design/design.js";
import { furtherRays } from "../../equipment/rays.js";
import { antennasStated, type Stand } from "../../equipment/stands.js";
import type { HopResult } from "../../evaluate/account/result.js";
import { coordinate, element } from "../document/markup.js";
import type { Scales } from "./profile-ground.js";
import { antennaHeightsM } from "./profile-points.js";
import { path } from "./sheet.js";

interface HungFurther {
  readonly end: 0 | 1;
  readonly stand: Stand;
  readonly aslM: number;
}

/** What hangs there beside the first antennas, with its centre above sea level. */
export function furtherAntennas({ ends }: Hop, { geometry }: HopResult): readonly HungFurther[] {
  return ([0, 1] as const).flatMap((end) =>
    antennasStated(ends[end])
      .slice(1)
      .flatMap((stand) =>
        geometry === undefined || stand.antenna === undefined || stand.heightM === undefined
          ? []
          : [{ end, stand, aslM: geometry[end].groundM + stand.heightM }],
      ),
  );
}

/** `ray to the diversity antenna` */
export function furtherRayWords(hop: Hop): string {
  const facts = new Set(hop.ends.flatMap((end) => antennasStated(end).slice(1)).map(({ fact }) => fact));
  return facts.has("diversity-antenna") ? "ray to the diversity antenna" : "ray of a further antenna";
}

/** Those that the arrangement uses; to an antenna that it has no use for, from the first one of the other end. */
export function furtherRayLines(hop: Hop, result: HopResult, { x, y, lengthM }: Scales): string {
  const first = antennaHeightsM(result);
  if (first === undefined) return "";
  const hung = furtherAntennas(hop, result);
  const heightOf = (end: 0 | 1, { fact }: Pick<Stand, "fact">) =>
    hung.find((one) => one.end === end && one.stand.fact === fact)?.aslM ?? first[end];
  const used = furtherRays(hop).map(({ stands }) => stands);
  const isUsed = ({ end, stand }: HungFurther) => used.some((stands) => stands[end].fact === stand.fact);
  const rays = [
    ...used.map((stands) => [heightOf(0, stands[0]), heightOf(1, stands[1])] as const),
    ...hung
      .filter((one) => !isUsed(one))
      .map(({ end, aslM }) => (end === 0 ? ([aslM, first[1]] as const) : ([first[0], aslM] as const))),
  ];
  const lines = rays.map(([from, to]) =>
    path(
      "diversity",
      `M${coordinate(x(0))} ${coordinate(y(from))}L${coordinate(x(lengthM))} ${coordinate(y(to))}`,
    ),
  );
  const dots = hung.map(({ end, aslM }) =>
    element("circle", {
      class: "second-antenna",
      cx: Number(coordinate(x(end === 0 ? 0 : lengthM))),
      cy: y(aslM),
      r: 3.5,
    }),
  );
  return [...lines, ...dots].join("");
}
