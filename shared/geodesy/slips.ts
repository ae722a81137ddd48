/** What may have gone wrong with a written position, and the position that was meant. */
import type { LatLon } from "./coordinates.js";

export interface Slip {
  readonly id: "longitude sign" | "latitude sign" | "exchanged" | "digits exchanged" | "exchanged and sign";
  /** For example `the other sign of the longitude (E for W, or W for E)`. */
  readonly said: string;
  /** Of the place that was meant. */
  latitudeDeg(at: LatLon): number;
  longitudeDeg(at: LatLon): number;
  /** On which side of the line a place lies that the slip mirrors at; undefined: it is no mirror. */
  side?(at: LatLon): number;
}

export const SLIPS: readonly Slip[] = [
  {
    id: "longitude sign",
    said: "the other sign of the longitude (E for W, or W for E)",
    latitudeDeg: ({ latitudeDeg }) => latitudeDeg,
    longitudeDeg: ({ longitudeDeg }) => -longitudeDeg,
    side: ({ longitudeDeg }) => Math.sign(longitudeDeg),
  },
  {
    id: "latitude sign",
    said: "the other sign of the latitude (N for S, or S for N)",
    latitudeDeg: ({ latitudeDeg }) => -latitudeDeg,
    longitudeDeg: ({ longitudeDeg }) => longitudeDeg,
    side: ({ latitudeDeg }) => Math.sign(latitudeDeg),
  },
  {
    id: "exchanged",
    said: "latitude and longitude exchanged",
    latitudeDeg: ({ longitudeDeg }) => longitudeDeg,
    longitudeDeg: ({ latitudeDeg }) => latitudeDeg,
    side: ({ latitudeDeg, longitudeDeg }) => Math.sign(latitudeDeg - longitudeDeg),
  },
  {
    id: "digits exchanged",
    said: "latitude and longitude exchanged behind their letters",
    latitudeDeg: ({ latitudeDeg, longitudeDeg }) => Math.sign(latitudeDeg) * Math.abs(longitudeDeg),
    longitudeDeg: ({ latitudeDeg, longitudeDeg }) => Math.sign(longitudeDeg) * Math.abs(latitudeDeg),
    side: ({ latitudeDeg, longitudeDeg }) => Math.sign(Math.abs(latitudeDeg) - Math.abs(longitudeDeg)),
  },
  {
    id: "exchanged and sign",
    said: "latitude and longitude exchanged, and the other sign of the longitude",
    latitudeDeg: ({ longitudeDeg }) => longitudeDeg,
    longitudeDeg: ({ latitudeDeg }) => -latitudeDeg,
  },
];

export function mend(slip: Slip, at: LatLon): LatLon {
  return { latitudeDeg: slip.latitudeDeg(at), longitudeDeg: slip.longitudeDeg(at) };
}

/** The places of the Earth that slips would explain, each once and none the stated one. */
export function mendedBy(at: LatLon): readonly { readonly slip: Slip; readonly mended: LatLon }[] {
  const places = [at];
  return SLIPS.flatMap((slip) => {
    const mended = mend(slip, at);
    if (Math.abs(mended.latitudeDeg) > 90 || places.some((place) => areAlike(place, mended))) return [];
    places.push(mended);
    return [{ slip, mended }];
  });
}

function areAlike(a: LatLon, b: LatLon): boolean {
  return (
    Math.abs(a.latitudeDeg - b.latitudeDeg) <= LEAST_MOVED_DEG &&
    Math.abs(a.longitudeDeg - b.longitudeDeg) <= LEAST_MOVED_DEG
  );
}

/** About 100 m: less is no slip that anybody could tell. */
const LEAST_MOVED_DEG = 0.001;
