import type { RevisionWords } from "../revision-words.js";

export const GERMAN_REVISION: RevisionWords = {
  committed: (commit, day) => `Stand ${commit}${day === undefined ? "" : ` vom ${day}`}`,
  changed: "mit Änderungen, die in keinem Stand sind",
  filesBeside: "einige Dateien, auf denen er beruht, sind nicht in git",
  notInGit: "nicht in git",
  notRead: "Stand nicht bekannt",
  compassOfCommit:
    "Der Entwurf nennt keinen Tag für den Kompass (magnetic-date): es gilt der Tag seines Standes.",
  outsideYears: (day) =>
    `Nichts für den Kompass: ${day} liegt außerhalb der Jahre des World Magnetic Model 2025, 2025 bis 2029.`,
};
