import type { MessagePort } from "node:worker_threads";
import type { TerrainProfile } from "../../shared/terrain/profile.js";
import type { AheadAnswer, PathList } from "./ahead.js";
import type { TerrainStore } from "./store.js";

/** The other side of `readAhead`: answers each list of paths with the profiles, one list after the other. */
export function serveProfiles(
  port: Pick<MessagePort, "postMessage" | "on">,
  opening: Promise<TerrainStore>,
): void {
  let last: Promise<unknown> = opening;
  port.on("message", (paths: PathList) => {
    last = last.then(async () => {
      const { answer, buffers } = await answerTo(paths, await opening);
      port.postMessage(answer, buffers);
    });
  });
}

async function answerTo(
  paths: PathList,
  store: TerrainStore,
): Promise<{ answer: AheadAnswer; buffers: ArrayBuffer[] }> {
  const profiles: (TerrainProfile | undefined)[] = [];
  for (let i = 0; i < paths.length; i += 4) {
    const from = { latitudeDeg: paths[i]!, longitudeDeg: paths[i + 1]! };
    const to = { latitudeDeg: paths[i + 2]!, longitudeDeg: paths[i + 3]! };
    profiles.push(store.profileSync(from, to) ?? (await store.profile(from, to)));
  }
  const buffers = profiles.flatMap((profile) =>
    profile ? [profile.distanceM.buffer as ArrayBuffer, profile.heightM.buffer as ArrayBuffer] : [],
  );
  return { answer: { profiles, problems: store.problems }, buffers };
}
