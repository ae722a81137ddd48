import type { HopResult } from "../../evaluate/account/result.js";
import { fresnelAsked, kFactor, kilometres, metres } from "../../format/numbers.js";
import { clearanceAgainst } from "../clearance-against.js";
import type { Inline, Table } from "../document/document.js";

/**
 * Each criterion with its critical point, and the least height of either antenna while the other stays.
 * @param accepted the design accepts what is not met
 */
export function clearanceTable(result: HopResult, accepted: boolean): Table {
  const [first, second] = result.ends;
  return {
    type: "table",
    columns: [
      { title: "Asked" },
      { title: "Critical point" },
      { title: "Height a.s.l.", align: "right" },
      { title: "F1 radius", align: "right" },
      { title: "Clearance", align: "right" },
      { title: "Clearance (F1)", align: "right" },
      { title: `Minimum height at ${first}`, align: "right" },
      { title: `Minimum height at ${second}`, align: "right" },
      { title: "" },
    ],
    rows: criteriaOf(result).map(({ one, ray }) => {
      const verdict: Inline = one.forInformation
        ? { text: "for information", mark: "quiet" }
        : one.verdict === "met"
          ? { text: "met", mark: "good" }
          : one.verdict === "open"
            ? {
                text: `open: ${result.unknownGround === undefined ? "the channel is still to be chosen" : "some ground is not known"}`,
                mark: "quiet",
              }
            : accepted
              ? { text: "not met, accepted", mark: "accepted" }
              : { text: "not met", mark: "error" };
      return {
        cells: [
          `${ray}${one.forInformation ? "" : `${fresnelAsked(one.requiredFraction)}, `}${kFactor(one.kFactor)}`,
          `${one.obstacle ?? "ground"}, ${kilometres(one.distanceM)}`,
          metres(one.obstacleM),
          metres(one.fresnelRadiusM),
          metres(one.clearanceM),
          clearanceAgainst(one).replace(" F1", ""),
          ...one.heightNeededM.map((heightM) => needed(heightM)),
          verdict,
        ],
      };
    }),
  };
}

/** Those of further antennas behind the others; the heights needed are those of the antennas that the ray hangs on. */
function criteriaOf({ clearance, furtherPaths = [] }: HopResult) {
  return [
    ...clearance.map((one) => ({ one, ray: "" })),
    ...furtherPaths.flatMap(({ name, clearance: over }) => over.map((one) => ({ one, ray: `${name}: ` }))),
  ];
}

function needed(heightM: number | undefined): string {
  if (heightM === undefined) return "cannot";
  return heightM === 0 ? "any height" : metres(Math.ceil(heightM * 10) / 10);
}
