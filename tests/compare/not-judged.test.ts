/** A hop that loses a name it rests on is not mended and not removed: nobody knows any more what it is. */
import { afterAll, beforeAll, expect, test } from "vitest";
import type { ChangeSet } from "../../shared/compare/change-set.js";
import { headline } from "../../shared/compare/page/hop-section.js";
import { files } from "./network.js";
import { TestRepository } from "./repository.js";

const repository = TestRepository.create();
let changes: ChangeSet;
let back: ChangeSet;

beforeAll(async () => {
  repository.write(files());
  const whole = repository.commit("whole");
  // The hops that end at the site still use its old name.
  repository.edit("sites.hop", "site FELL", "site FELLS");
  const broken = repository.commit("site renamed, hops forgotten");
  changes = await repository.changes(whole, broken);
  back = await repository.changes(broken, whole);
});
afterAll(() => repository.remove());

test("it is told as not judged any more, and as worse", () => {
  const lost = changes.hops.filter(({ status }) => status === "not judged");
  expect(lost.map(({ hop }) => hop)).toEqual(["FELL-TARN"]);
  expect(headline(lost[0]!)).toContain("not judged any more");
  expect(lost[0]).toMatchObject({ worse: true, edited: false, figures: [] });
  expect(changes.worse).toBe(true);
});

test("its findings are not fixed, its parts not returned, its licences not cancelled", () => {
  expect(changes.counts.fixedFindings).toBe(0);
  expect(changes.hops.flatMap(({ findings }) => findings).filter(({ status }) => status === "fixed")).toEqual(
    [],
  );
  expect(changes.orders.filter(({ count }) => count < 0)).toEqual([]);
  expect(changes.licences).toEqual([]);
  expect(changes.counts.removed).toBe(0);
});

test("mended again, nothing has to be ordered or licensed anew", () => {
  expect(back.orders.filter(({ count }) => count > 0)).toEqual([]);
  expect(back.licences).toEqual([]);
});
