/** Tests that take the least come first: most mutants are found by one of them, and nothing runs after it. */
import { BaseSequencer, type TestSpecification } from "vitest/node";

export default class ShortestFirst extends BaseSequencer {
  override async sort(files: TestSpecification[]): Promise<TestSpecification[]> {
    const { cache } = this.ctx;
    const took = (file: TestSpecification) =>
      cache.getTestSpecificationResult(file)?.duration ?? Number.MAX_SAFE_INTEGER;
    const all = files.map((file) => ({ file, ms: took(file) }));
    return all.sort((a, b) => a.ms - b.ms).map(({ file }) => file);
  }
}
