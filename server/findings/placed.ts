/** Findings with their place in the text: what every printer of `check` and every report lays out. */
import type { TextProblem } from "../../language/facts/fact.js";
import { addressAt } from "../../language/model/address-at.js";
import type { DesignModel } from "../../language/model/design-model.js";
import { locate } from "../../language/model/locate.js";
import type { Address } from "../../shared/design/address.js";
import type { Finding } from "../../shared/design/finding.js";
import type { Severity } from "../../shared/design/severity.js";
import type { Span } from "../../shared/design/state.js";
import { linesOf } from "./lines.js";

/** A range of a text file. */
export interface Place {
  /** Absolute, parted by `/`. */
  readonly file: string;
  /** Offsets in UTF-16 units from the start of the file; `end` is behind the range. */
  readonly start: number;
  readonly end: number;
  /** Counted from 1. */
  readonly line: number;
  readonly column: number;
  readonly endLine: number;
  readonly endColumn: number;
  /** The line in which the range begins. */
  readonly lineText: string;
}

export interface PlacedRelated {
  readonly at?: Address;
  readonly place?: Place;
  /** A file that is no text of the design: terrain, survey. As the finding names it. */
  readonly file?: string;
  readonly message: string;
}

export interface PlacedFinding {
  readonly rule: string;
  /** Rule and address: the same as long as it is the same finding, whatever its figures and lines. */
  readonly key: string;
  /** Address of what it belongs to; undefined: a text outside of every declaration. */
  readonly at?: Address;
  readonly severity: Severity;
  readonly message: string;
  readonly help?: string;
  /** The hop that it was found on, or in whose text it stands. */
  readonly hop?: string;
  readonly place?: Place;
  readonly related: readonly PlacedRelated[];
  readonly notJudged?: Finding["notJudged"];
  readonly accepted?: Finding["accepted"];
  /** Set: it holds only then of the times that are judged; the message tells it. */
  readonly time?: Partial<Span>;
  /** How many more say the same and are not listed; the message tells it too. */
  readonly alike?: number;
}

/** Turns addresses and offsets of one design into places. */
export class Placer {
  constructor(private readonly model: DesignModel) {}

  ofFinding(finding: Finding, hop?: string): PlacedFinding {
    const { rule, at, severity, message, help, notJudged, accepted } = finding;
    const related = (finding.related ?? []).map(({ at, file, message }): PlacedRelated => {
      const found = at === undefined ? undefined : locate(at, this.model);
      return { at, place: found && this.place(found.file, found.start, found.end), file, message };
    });
    const found = locate(finding.at, this.model);
    const place = found && this.place(found.file, found.start, found.end);
    const key = keyOf(finding);
    return { rule, key, at, severity, message, help, hop, place, related, notJudged, accepted };
  }

  ofProblem(file: string, problem: TextProblem, hop?: string): PlacedFinding {
    const { rule, severity, message, help, start, end } = problem;
    const related = (problem.related ?? []).map((one) => ({
      place: this.place(one.file, one.start, one.end),
      message: one.message,
    }));
    const source = this.model.file(file);
    const at = source && addressAt(source, start);
    return {
      rule,
      key: keyOf({ rule, at: at ?? "file" }),
      at,
      severity,
      message,
      help,
      hop,
      place: this.place(file, start, end),
      related,
    };
  }

  /** A range of a file of the design. */
  place(file: string, start: number, end: number): Place | undefined {
    const source = this.model.file(file);
    if (!source) return undefined;
    const lines = linesOf(source);
    const range = lines.range(start, Math.max(start, end));
    return {
      file,
      start,
      end: Math.max(start, end),
      line: range.start.line + 1,
      column: range.start.character + 1,
      endLine: range.end.line + 1,
      endColumn: range.end.character + 1,
      lineText: lines.text(range.start.line),
    };
  }
}

/** The same as long as it is the same finding. */
export function keyOf({ rule, about, at }: Pick<Finding, "rule" | "about" | "at">): string {
  return `${rule} ${about ?? at}`;
}

/**
 * What a finding is known by from run to run. One that ends by what is planned is another than one that stays; the day
 * from which it holds passes, and makes it no other.
 */
export function knownBy({ key, time }: Pick<PlacedFinding, "key" | "time">): string {
  return time?.until === undefined ? key : `${key} until ${time.until}`;
}

const RANK: Readonly<Record<Severity, number>> = { error: 0, warning: 1, info: 2 };

export function atLeast(severity: Severity, asked: Severity): boolean {
  return RANK[severity] <= RANK[asked];
}

/** By file and place; at one place the gravest first. What has no place comes last. */
export function inOrder(findings: readonly PlacedFinding[]): PlacedFinding[] {
  return findings.toSorted(
    (a, b) =>
      compare(a.place?.file ?? "\uffff", b.place?.file ?? "\uffff") ||
      (a.place?.start ?? 0) - (b.place?.start ?? 0) ||
      RANK[a.severity] - RANK[b.severity] ||
      compare(a.rule, b.rule) ||
      compare(a.time?.from ?? "", b.time?.from ?? "") ||
      compare(a.message, b.message),
  );
}

/** Errors first, then warnings, then infos; within each the order stays. */
export function gravestFirst(findings: readonly PlacedFinding[]): PlacedFinding[] {
  return findings.toSorted((a, b) => RANK[a.severity] - RANK[b.severity]);
}

function compare(a: string, b: string): number {
  return a < b ? -1 : a > b ? 1 : 0;
}
