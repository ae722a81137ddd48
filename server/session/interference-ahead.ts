/** All of a large network at first: its profiles are read by a second thread, as far as there is one. */
import type { Ahead } from "../../shared/interference/asking.js";
import type { GroundSources } from "./ground-sources.js";
import type { InterferenceInputs, Pausing, SessionInterference } from "./interference.js";

/** Below this many hops a thread starts no sooner than they are done. */
export const WORTH_A_THREAD = 300;

export async function updateInterference(
  interference: SessionInterference,
  inputs: InterferenceInputs,
  ground: GroundSources,
  pace: Pausing,
): ReturnType<SessionInterference["update"]> {
  const isLarge = !interference.isComputed && inputs.results.size >= WORTH_A_THREAD;
  const store = isLarge ? ground.withThread() : undefined;
  if (store === undefined) return interference.update(inputs, pace);
  const ahead: Ahead = (asked) => {
    const paths = asked.map(({ from, to }) => [from, to] as const);
    if (paths.length > 0) store.ask(paths, asked[0]!.stepM);
  };
  try {
    return await interference.update({ ...inputs, terrain: store, ahead }, pace);
  } finally {
    // A thread that is left running keeps the process alive.
    store.end();
  }
}
