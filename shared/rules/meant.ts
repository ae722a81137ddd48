import { nearest } from "../format/nearest.js";
import { RULES } from "./index.js";

/** The rule that a misspelt identifier was meant to be; rules about acceptances themselves are none to name. */
export function meantRule(written: string): string | undefined {
  const named = [...RULES.values()].filter(({ scope }) => scope !== "acceptance");
  return nearest(
    written,
    named.map(({ id }) => id),
  );
}

export function didYouMean(written: string): string {
  const meant = meantRule(written);
  return meant === undefined ? "" : `; did you mean ${meant}?`;
}
