import type { Hop } from "../../design/design.js";
import type { HopResult } from "../../evaluate/account/result.js";
import { decibels, kilometres, metres, trimmed } from "../../format/numbers.js";
import type { Figure, Section } from "../document/document.js";
import { drawRipple } from "../draw/ripple.js";

/** Where surfaces reflect, how deep the two rays cancel, and the spacing or height that escapes it. */
export function reflectionSection(hop: Hop, result: HopResult): Section[] {
  const { reflections } = result;
  if (reflections === undefined) return [];
  return [
    {
      id: "reflection",
      title: "Reflection",
      blocks: [
        {
          type: "table",
          columns: [
            { title: "Surface" },
            { title: "Reflects at", align: "right" },
            { title: "Grazing angle", align: "right" },
            { title: "Cancels by", align: "right" },
            { title: "Adds up to", align: "right" },
            { title: "Moves over k", align: "right" },
            { title: "Half a lobe" },
            { title: "" },
          ],
          rows: reflections.map((one) => ({
            cells: [
              `${one.surface}, ${kilometres(one.fromM)} to ${kilometres(one.toM)}`,
              kilometres(one.pointM),
              `${trimmed(one.grazingMrad, 1)} mrad`,
              `${one.deepestFadeBound === undefined ? "" : "≥ "}${decibels(one.deepestFadeDb)}`,
              decibels(one.highestGainDb),
              `${trimmed(one.spanWavelengths, 1)} λ`,
              one.ends
                .flatMap(({ site, bestSpacingM }) =>
                  bestSpacingM === undefined ? [] : `${site} ${metres(bestSpacingM)}`,
                )
                .join(", "),
              one.shielded ? "shielded by terrain" : one.onSurface ? "reflects" : "point lies beside it",
            ],
          })),
        },
        {
          type: "paragraph",
          text: "Calm, smooth surface, the worst case; constants of the ground from memory. Half a lobe is the spacing of a second antenna that has a maximum where the first has a cancellation.",
        },
        ...figures(hop, result),
      ],
    },
  ];
}

/** Of the surfaces that do reflect. */
function figures(hop: Hop, result: HopResult): Figure[] {
  return (result.reflections ?? []).flatMap((one, index) => {
    const drawn = one.onSurface && !one.shielded ? drawRipple(hop, result, one) : undefined;
    return drawn ? [{ type: "figure", name: `ripple-${index + 1}`, small: true, ...drawn }] : [];
  });
}
