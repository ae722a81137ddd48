/** What the rules of readings share. */
import { type HeldHopReadings, type HeldReading, heldReadings } from "../../as-built/held.js";
import { address, nth } from "../../design/address.js";
import type { Hop } from "../../design/design.js";
import type { HopContext } from "../rule.js";

export function readingAddress(hop: Hop, index: number): string {
  return address("hop", hop.name, nth("measured", index));
}

/** Nothing where nothing is measured. */
export function held({ hop, result }: Pick<HopContext, "hop" | "result">): HeldHopReadings | undefined {
  return heldReadings(hop, result);
}

/** Two side lobes at once are rarer than a turned feed, and one side lobe is commoner. */
export function signedReadings(
  { readings }: HeldHopReadings,
  wanted: "side lobe" | "turned feed",
): readonly HeldReading[] {
  return readings.filter(({ verdict, agreeing, signatures }) => {
    if (verdict !== "low" || agreeing !== undefined || signatures.length === 0) return false;
    const isTurned = signatures.includes("turned feed") && !signatures.includes("one side lobe");
    return isTurned === (wanted === "turned feed");
  });
}

/** What is said of the day of a reading keeps it the same finding when the level is read anew. */
export function aboutReading({
  measured: { site, branch = "main", carrier = 1, mode = "" },
}: HeldReading): string {
  return `${site} ${branch} ${carrier} ${mode}`.trim();
}
