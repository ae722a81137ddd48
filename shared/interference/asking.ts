/** What a run asks of whoever holds the terrain, and what need not be asked again. */
import type { LatLon } from "../geodesy/coordinates.js";
import type { TerrainProfile } from "../terrain/profile.js";
import type { Entry } from "./entry.js";
import type { EntryPath } from "./entry-path.js";
import { isSamePath } from "./same-path.js";
import type { Receiver, Sender } from "./station.js";

/**
 * What a run asks of its host: a profile each time, which is handed in; undefined where it only lets other work in, since
 * much may be computed between two profiles.
 */
export type Asking<T> = Generator<ProfileAsked | undefined, T, TerrainProfile | undefined>;

export type Ahead = (asked: readonly ProfileAsked[]) => void;

/** A profile from a sender to a receiver. */
export interface ProfileAsked {
  readonly from: LatLon;
  readonly to: LatLon;
  /** Undefined: the raster's own. */
  readonly stepM?: number;
}

/** An entry as it was, over a profile of one step. */
export interface KnownAtStep {
  readonly receiver: Receiver;
  readonly entry: Entry;
}

/** What lies between two stations, where it is the same as it was. */
export function knownPath(
  sender: Sender,
  receiver: Receiver,
  was: KnownAtStep | undefined,
): EntryPath | undefined {
  return was !== undefined && isSamePath(was.entry.sender, sender) && isSamePath(was.receiver, receiver)
    ? was.entry.path
    : undefined;
}

export function askedFor(sender: Sender, receiver: Receiver, stepM: number | undefined): ProfileAsked {
  return { from: sender.place.position, to: receiver.place.position, stepM };
}
