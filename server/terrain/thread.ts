/** The thread that reads terrain ahead: a bundle of its own, so that starting it loads little. */
import { parentPort, workerData } from "node:worker_threads";
import type { AheadSource } from "./ahead.js";
import { serveProfiles } from "./serve-profiles.js";
import { openTerrain } from "./store.js";

const { roots, baseDir, cacheBytes } = workerData as AheadSource;
serveProfiles(parentPort!, openTerrain(roots, { baseDir, cacheBytes }));
