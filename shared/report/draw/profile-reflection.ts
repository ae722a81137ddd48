/** Where surfaces reflect: the stretch, the point with its grazing angle, and the two legs of the reflected ray. */
import type { ReflectionResult } from "../../evaluate/account/reflection-result.js";
import type { HopResult } from "../../evaluate/account/result.js";
import { kilometres, trimmed } from "../../format/numbers.js";
import { coordinate, element } from "../document/markup.js";
import type { Scales } from "./profile-ground.js";
import type { Label } from "./profile-labels.js";
import { antennaHeightsM, bulgeM } from "./profile-points.js";
import { path } from "./sheet.js";

/** Points off their surface reflect nothing and are left to the table. */
function drawn({ reflections }: HopResult): readonly ReflectionResult[] {
  return (reflections ?? []).filter(({ onSurface }) => onSurface);
}

export function reflectionLabels(result: HopResult, lengthM: number, k: number): Label[] {
  return drawn(result).map((one) => {
    const brief = `reflects, grazing ${trimmed(one.grazingMrad, 1)} mrad`;
    return {
      distanceM: one.pointM,
      drawnM: one.surfaceAslM + bulgeM(one.pointM, lengthM, k),
      text: `${one.surface} ${brief} at ${kilometres(one.pointM)}${one.shielded ? ", shielded" : ""}`,
      brief,
      tone: "info",
    };
  });
}

/** Straight lines, since the Earth's curve is in the ground already. */
export function reflectedRays(result: HopResult, { x, y, lengthM }: Scales, k: number): string {
  const antennas = antennaHeightsM(result);
  if (antennas === undefined) return "";
  const height = (one: ReflectionResult, distanceM: number) =>
    coordinate(y(one.surfaceAslM + bulgeM(distanceM, lengthM, k)));
  return drawn(result)
    .map((one) => {
      const [from, to] = [Math.max(0, one.fromM), Math.min(lengthM, one.toM)];
      const middle = (from + to) / 2;
      const stretch = [from, middle, to].map((at) => `${coordinate(x(at))} ${height(one, at)}`).join("L");
      const point = `${coordinate(x(one.pointM))} ${height(one, one.pointM)}`;
      const legs = `M${coordinate(x(0))} ${coordinate(y(antennas[0]))}L${point}L${coordinate(x(lengthM))} ${coordinate(y(antennas[1]))}`;
      return element("g", {}, path("surface", `M${stretch}`), path("reflected", legs));
    })
    .join("");
}
