import { expect, test } from "vitest";
import { isEmpty } from "../../shared/compare/change-set.js";
import { networkText } from "../bench/network/network.js";
import { TestRepository } from "./repository.js";

/** Counted, not timed: `tests/bench` has the clock. */
test("of a large network only what differs is evaluated, with what stands beside it", async () => {
  const repository = TestRepository.create();
  const files = networkText(600, "terrain");
  repository.write(Object.fromEntries(files));
  repository.commit("base");
  const same = await repository.compare("HEAD", undefined);
  expect(same.designs.map(({ was, is }) => [was.evaluations, is.evaluations])).toEqual([[0, 0]]);
  expect(isEmpty(same.designs[0]!.changes)).toBe(true);
  const paths = [...files.keys()].filter((path) => path.startsWith("hops/")).slice(0, 5);
  for (const path of paths) {
    // The first antenna of the file, three metres up: the level stays, the licence does not.
    const text = repository.read(path);
    const height = /(antenna \S+ at )(\d+)( m)/.exec(text)!;
    repository.write({ [path]: text.replace(height[0], `${height[1]}${Number(height[2]) + 3}${height[3]}`) });
  }
  const { designs } = await repository.compare("HEAD", undefined);
  const [{ was, is, changes }] = designs as [(typeof designs)[0]];
  repository.remove();
  expect(changes.counts).toMatchObject({ edited: 5, affected: 0, added: 0, removed: 0 });
  expect(changes.licences).toHaveLength(5);
  // A hop ends at two sites of a few hops each; beside these count those that feel what it sends, and what all of them hear.
  for (const { evaluations } of [was, is]) {
    expect(evaluations).toBeGreaterThanOrEqual(5);
    expect(evaluations).toBeLessThan(120);
  }
});
