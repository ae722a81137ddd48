/** What hops of a design share, as last judged, by the files that it is told in. */
import { isDeepStrictEqual } from "node:util";
import type { DesignModel } from "../../language/model/design-model.js";
import { fileOf } from "../../language/model/locate.js";
import type { Finding } from "../../shared/design/finding.js";

export class FindingsByFile {
  /** The same array until others are taken. */
  all: readonly Finding[] = [];
  private byFile = new Map<string, Finding[]>();

  in(path: string): readonly Finding[] {
    return this.byFile.get(path) ?? [];
  }

  /** What some rules say of a file is new before the rest is judged. */
  takeSome(path: string, rules: ReadonlySet<string>, findings: readonly Finding[]): void {
    const others = this.in(path).filter(({ rule }) => !rules.has(rule));
    this.byFile.set(path, [...others, ...findings]);
  }

  /** @returns files whose findings are others than before */
  take(findings: readonly Finding[], model: DesignModel): Set<string> {
    this.all = findings;
    const before = this.byFile;
    this.byFile = new Map();
    for (const finding of findings) {
      const file = fileOf(finding.at, model) ?? "";
      const others = this.byFile.get(file);
      if (others) others.push(finding);
      else this.byFile.set(file, [finding]);
    }
    const files = new Set([...before.keys(), ...this.byFile.keys()]);
    return new Set(
      [...files].filter((file) => !areSame(before.get(file) ?? [], this.byFile.get(file) ?? [])),
    );
  }
}

function areSame(some: readonly Finding[], others: readonly Finding[]): boolean {
  return (
    some.length === others.length &&
    some.every((finding, index) => finding === others[index] || isSame(finding, others[index]!))
  );
}

/** Words first: most findings are the same in all, and of those that are not most differ in them. */
function isSame(
  { rule, severity, at, about, message, help, ...rest }: Finding,
  { changes, related, notJudged, accepted, ...other }: Finding,
): boolean {
  return (
    message === other.message &&
    at === other.at &&
    rule === other.rule &&
    severity === other.severity &&
    about === other.about &&
    help === other.help &&
    isDeepStrictEqual(rest.changes, changes) &&
    isDeepStrictEqual(rest.related, related) &&
    isDeepStrictEqual(rest.notJudged, notJudged) &&
    isDeepStrictEqual(rest.accepted, accepted)
  );
}
