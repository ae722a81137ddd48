/** What a path rests on. */
import type { Place, Sender } from "./station.js";

/** Whether what lies between two stations is the same for the one as for the other. */
export function isSamePath(
  one: Pick<Sender, "place" | "frequencyHz" | "polarization" | "antenna">,
  other: Pick<Sender, "place" | "frequencyHz" | "polarization" | "antenna">,
): boolean {
  return (
    one.frequencyHz === other.frequencyHz &&
    one.polarization === other.polarization &&
    one.antenna === other.antenna &&
    isSamePlace(one.place, other.place)
  );
}

function isSamePlace(one: Place, other: Place): boolean {
  return (
    one === other ||
    (one.position.latitudeDeg === other.position.latitudeDeg &&
      one.position.longitudeDeg === other.position.longitudeDeg &&
      one.groundM === other.groundM &&
      one.antennaM === other.antennaM &&
      one.coastM === other.coastM &&
      one.boresight?.azimuthDeg === other.boresight?.azimuthDeg &&
      one.boresight?.elevationDeg === other.boresight?.elevationDeg)
  );
}
