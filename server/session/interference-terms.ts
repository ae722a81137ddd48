/** What a network states of the air, and where it does not what the user's maps say in its middle. */
import type { Design } from "../../shared/design/design.js";
import type { InterferenceTerms } from "../../shared/design/interference.js";
import type { MapStore } from "../maps/store.js";

type OfMaps = "lapseNPerKm" | "surfaceRefractivity";

/** The maps change slowly over a network; of a very wide one what is stated is better. */
export async function interferenceTerms(
  { interference = {}, sites }: Design,
  maps: MapStore | undefined,
): Promise<InterferenceTerms> {
  const open = (["lapseNPerKm", "surfaceRefractivity"] as const).filter(
    (fact) => interference[fact] === undefined,
  );
  const places = open.length === 0 || maps === undefined ? [] : [...sites.values()];
  const first = places.find(({ position }) => position !== undefined)?.position;
  if (maps === undefined || first === undefined) return interference;
  let [latitude, longitude, count] = [0, 0, 0];
  for (const { position } of places) {
    if (position === undefined) continue;
    latitude += position.latitudeDeg;
    // From the first on, so that a network at 180 degrees has its middle there.
    longitude += turned(position.longitudeDeg - first.longitudeDeg);
    count++;
  }
  const middle = {
    latitudeDeg: latitude / count,
    longitudeDeg: turned(first.longitudeDeg + longitude / count),
  };
  const readings = await maps.readings<OfMaps>(middle, open);
  if (readings.length === 0) return interference;
  return {
    ...interference,
    ...Object.fromEntries(readings.map(({ fact, value }) => [fact, value])),
    fromMaps: readings.map(({ fact }) => fact),
  };
}

function turned(deg: number): number {
  return deg - 360 * Math.round(deg / 360);
}
