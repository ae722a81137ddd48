/** The second antenna of space diversity at each end, and the ray that it receives. */
import type { Hop } from "../../design/design.js";
import type { HopResult } from "../../evaluate/result.js";
import { coordinate, element } from "../document/markup.js";
import type { Scales } from "./profile-ground.js";
import { antennaHeightsM } from "./profile-points.js";
import { path } from "./sheet.js";

/** Centres of the diversity antennas above sea level; undefined where an end has none. */
export function diversityHeightsM(
  { ends }: Hop,
  { geometry }: HopResult,
): readonly [number | undefined, number | undefined] {
  const height = (index: 0 | 1) => {
    const { diversityAntenna, diversityHeightM } = ends[index];
    if (geometry === undefined || diversityAntenna === undefined || diversityHeightM === undefined)
      return undefined;
    return geometry[index].groundM + diversityHeightM;
  };
  return [height(0), height(1)];
}

/** From the antenna that transmits at the other end. */
export function diversityRays(hop: Hop, result: HopResult, { x, y, lengthM }: Scales): string {
  const antennas = antennaHeightsM(result);
  if (antennas === undefined) return "";
  return diversityHeightsM(hop, result)
    .map((heightM, index) => {
      if (heightM === undefined) return "";
      const at = coordinate(x(index === 0 ? 0 : lengthM));
      const from = coordinate(x(index === 0 ? lengthM : 0));
      return [
        path(
          "diversity",
          `M${from} ${coordinate(y(antennas[index === 0 ? 1 : 0]))}L${at} ${coordinate(y(heightM))}`,
        ),
        element("circle", { class: "second-antenna", cx: Number(at), cy: y(heightM), r: 3.5 }),
      ].join("");
    })
    .join("");
}
