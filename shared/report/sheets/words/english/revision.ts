import type { RevisionWords } from "../revision-words.js";

export const ENGLISH_REVISION: RevisionWords = {
  committed: (commit, day) => `revision ${commit}${day === undefined ? "" : ` of ${day}`}`,
  changed: "with changes not committed",
  filesBeside: "some files it rests on are not in git",
  notInGit: "not in git",
  notRead: "revision not known",
  compassOfCommit:
    "The design states no day for compass bearings (magnetic-date): they are for that of its revision.",
  outsideYears: (day) =>
    `No bearings for a compass: ${day} lies outside the years of the World Magnetic Model 2025, 2025 to 2029.`,
};
