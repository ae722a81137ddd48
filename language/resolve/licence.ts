/** Licences as stated. They are held against the design by name alone: neither rests on the other. */
import { nth } from "../../shared/design/address.js";
import type { Licence, LicenceTerms } from "../../shared/design/licence.js";
import { over } from "../../shared/units/as-written.js";
import { argument, type Fact, factNamed, quantityOf, wordOf } from "../facts/fact.js";
import type { Declaration } from "../model/source-file.js";
import { fieldsOf, type Names } from "./fields.js";

/** @returns undefined where it is not said what it is for */
export function licenceOf({ fact }: Declaration, index: number, names: Names): Licence | undefined {
  // One that is still to be chosen: what was granted counts already.
  const number = wordOf(fact, "number") ?? (argument(fact, "number")?.open ? "?" : undefined);
  const hop = wordOf(fact, "of");
  const site = wordOf(fact, "from");
  if (number === undefined || hop === undefined || site === undefined) return undefined;
  const stated = fieldsOf("licence", fact.facts, names);
  const isSpoilt = stated.frequencyHz === undefined && factNamed(fact.facts, "frequency") !== undefined;
  return {
    at: nth("licence", index),
    number,
    hop,
    site,
    ...stated,
    ...(isSpoilt && { frequencyUnreadable: true as const }),
    antenna: wordOf(factNamed(fact.facts, "antenna"), "antenna"),
    since: wordOf(factNamed(fact.facts, "since"), "date"),
    until: wordOf(factNamed(fact.facts, "until"), "date"),
  };
}

const HOURS_A_DAY = 24;

export function licenceTermsOf(fact: Fact | undefined): LicenceTerms | undefined {
  if (fact === undefined) return undefined;
  const noticeHours = quantityOf(fact, "notice");
  return {
    ...(wordOf(fact, "wanted") === "required" && { required: true as const }),
    ...(noticeHours !== undefined && { noticeDays: over(noticeHours, HOURS_A_DAY) }),
  };
}
