/** What hops of a design share, as last judged, by the files that it is told in. */
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
      [...files].filter((file) => JSON.stringify(before.get(file)) !== JSON.stringify(this.byFile.get(file))),
    );
  }
}
