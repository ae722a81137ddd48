/** Words of the sheet that a hop is accepted with. */
import type { BuiltFact } from "../../../as-built/differences.js";
import type { ReadingVerdict } from "../../../as-built/held.js";
import type { Serial } from "../../../design/as-built.js";
import type { PathState } from "../../../equipment/branches.js";
import type { ObjectiveResult, Verdict } from "../../../evaluate/account/outage-result.js";

export interface AcceptanceWords {
  readonly title: string;
  readonly asked: string;
  readonly askedTold: string;
  /** Beside figures of rain outside the range of its law. */
  readonly estimateTold: string;
  readonly where: string;
  readonly askedFigure: string;
  readonly stands: string;
  readonly promisedFigure: string;
  readonly verdicts: Readonly<Record<Verdict, string>>;
  /** By the rule that judges it. */
  readonly criteria: Readonly<Record<string, string>>;
  readonly nothingAsked: string;
  readonly notComputed: string;
  /** Beside a verdict that the design accepts. @param until a day of the language */
  acceptedUntil(until: string | undefined): string;
  /** Of the most critical point. */
  placeAt(distance: string, from: string): string;
  /** @param one site and number of the antenna there */
  ray(one: string, other: string): string;
  readonly states: Readonly<Record<Exclude<PathState, "normal">, string>>;
  readonly availability: string;
  bothWays(mode: string): string;
  readonly outBy: Readonly<Record<"rain" | "multipath" | "equipment", string>>;
  readonly withEquipment: string;
  readonly links: Readonly<Record<ObjectiveResult["method"], string>>;
  readonly degradation: string;
  /** A share of a year: `at most 5.3 min a year`. @param text in English */
  time(text: string): string;
  /** Beside a figure that is an estimate, in place of `est.` */
  readonly estimated: string;
  readonly measured: string;
  readonly modes: string;
  readonly rate: string;
  marginAt(site: string): string;
  readonly levels: string;
  readonly readOn: string;
  readonly readBy: string;
  readonly readings: Readonly<Record<ReadingVerdict, string>>;
  readonly nothingMeasured: string;
  readonly toRead: string;
  readonly initials: string;
  readonly built: string;
  readonly asPlanned: string;
  readonly withinReason: string;
  readonly builtFacts: Readonly<Record<BuiltFact, string>>;
  readonly serialOf: Readonly<Record<Serial["of"], string>>;
  readonly exceptions: string;
  readonly exceptionsTold: string;
  readonly noExceptions: string;
  readonly open: string;
  readonly noOpen: string;
  readonly rule: string;
  readonly finding: string;
  readonly reason: string;
  readonly until: string;
  readonly noEnd: string;
  readonly checksTitle: string;
  readonly checksTold: string;
  readonly check: string;
  readonly checks: readonly string[];
  /** Where a unit waits for another. */
  readonly switchCheck: string;
  readonly polarizationCheck: string;
  readonly signatures: string;
  readonly agreed: string;
  readonly agreedWhat: string;
  readonly agreedWho: string;
  readonly roles: readonly string[];
}
