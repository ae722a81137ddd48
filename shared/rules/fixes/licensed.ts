/** Writes a licensed figure again, where it is stated in one place of the design. */
import { address } from "../../design/address.js";
import type { Hop } from "../../design/design.js";
import type { FactChange, Fix } from "../../design/fact-change.js";
import type { Licence } from "../../design/licence.js";
import { fixed, trimmed } from "../../format/numbers.js";
import type { Departure } from "../../licence/departures.js";
import { type Held, heldHop, licencesFor } from "../../licence/held.js";
import { licenceName } from "../../licence/words.js";
import { decision, type Fixes } from "./mending.js";

/** Without results: EIRP has no fix, since what it rests on is not one line. */
export const licensedAgain: Fixes = ({ finding, design }) => {
  const [top = ""] = finding.at.split(" / ");
  const hops = top.startsWith("hop ")
    ? [design.hops.get(top.slice("hop ".length))]
    : [...design.hops.values()].filter(({ ends }) =>
        ends.some(({ site }) => address("site", site.name) === top),
      );
  return hops.flatMap((hop) =>
    hop === undefined ? [] : fixesOf(hop, licencesFor(design, hop.name), finding.at),
  );
};

function fixesOf(hop: Hop, licences: readonly Licence[], at: string): readonly Fix[] {
  // The day does not matter: a fix is of the licence that the finding names, and is tried before it is offered.
  const { held } = heldHop(hop, undefined, licences, "0000-01-01");
  return held.flatMap((one) => {
    const here = one.departures.filter((departure) => departure.at === at);
    const changes = here.flatMap((departure) => changeOf(one, departure) ?? []);
    if (one.licence === undefined || here.length === 0 || changes.length < here.length) return [];
    const what = here.map(({ figure, granted }) => `${figure} ${granted}`).join(" and ");
    return [decision(`Write the licensed ${what} again, of ${licenceName(one.licence)}`, ...changes)];
  });
}

function changeOf({ licence, sent }: Held, { figure, at }: Departure): FactChange | undefined {
  const replace = (argument: string, by: string): FactChange => ({ do: "replace", at, argument, by });
  switch (figure) {
    case "polarization":
      return replace("value", licence!.polarization!);
    case "antenna":
      return replace("antenna", licence!.antenna!);
    case "height":
      return replace("at", `${trimmed(licence!.antennaHeightM!, 4)} m`);
    case "frequency": {
      if (!at.endsWith(" / transmits")) return undefined;
      const { channel, half } = sent;
      if (channel === undefined) return replace("value", `${trimmed(licence!.frequencyHz! / 1e9, 6)} GHz`);
      return half === undefined ? undefined : replace("value", half === "high" ? "low" : "high");
    }
    case "position": {
      const { latitudeDeg, longitudeDeg } = licence!.position!;
      return replace("position", `${fixed(latitudeDeg, 7)} ${fixed(longitudeDeg, 7)}`);
    }
    default:
      return undefined;
  }
}
