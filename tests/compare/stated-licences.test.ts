/** Licences that a design states: each is of one hop, and stays the same licence when that has another name. */
import { afterEach, expect, test } from "vitest";
import type { ChangeSet } from "../../shared/compare/change-set.js";
import { files, hop } from "./network.js";
import { TestRepository } from "./repository.js";

const made: TestRepository[] = [];
afterEach(() => {
  for (const repository of made.splice(0)) repository.remove();
});

/** Of plan P18 channel 4: 18.7 GHz + 10 MHz + 4 x 55 MHz, channel 6 two more. */
const LICENCES = `licence "L-1" of KELD-TARN from KELD {
  frequency 18.93 GHz
  eirp 30 dBW
}

licence "L-2" of KELD-MOSS from KELD {
  frequency 19.04 GHz
  eirp 30 dBW
}
`;

async function changed(edit: (repository: TestRepository) => void): Promise<ChangeSet> {
  const repository = TestRepository.create();
  made.push(repository);
  repository.write({ ...files(), "licences.hop": LICENCES });
  repository.commit("before");
  edit(repository);
  return repository.changes("HEAD");
}

const causesTold = ({ hops }: ChangeSet) =>
  hops.map(({ hop: name, causes }) => [name, causes.map(({ text }) => text)]);

const L2 = 'licence "L-2" of KELD-MOSS from KELD';

test("one that grants less is the cause at its own hop, and at no other that changed", async () => {
  const changes = await changed((repository) => {
    repository.edit("licences.hop", "19.04 GHz\n  eirp 30 dBW", "19.04 GHz\n  eirp 1 dBW");
    // Its licence is for channel 4.
    repository.write({
      "hops/north.hop": `${hop("KELD-TARN", "KELD", "TARN", 10)}\n${hop("KELD-MOSS", "KELD", "MOSS", 6)}`,
    });
  });
  expect(Object.fromEntries(causesTold(changes))).toEqual({ "KELD-MOSS": [L2], "KELD-TARN": [] });
  expect(changes.hops.map(({ findings }) => findings.some(({ rule }) => rule === "licence-differs"))).toEqual(
    [true, true],
  );
  expect(changes.shared).toMatchObject([{ entry: L2, status: "changed", usedBy: 1, affects: 1 }]);
});

test.each([
  ["goes", LICENCES.slice(0, LICENCES.indexOf('licence "L-2"')), "removed"],
  ["says more", LICENCES.replace("19.04 GHz\n", "19.04 GHz\n  bandwidth 28 MHz\n"), "changed"],
])("one that %s is told once, with its hop", async (_, text, status) => {
  const changes = await changed((repository) => repository.write({ "licences.hop": text }));
  expect(changes.shared).toMatchObject([{ entry: L2, status, usedBy: status === "removed" ? 0 : 1 }]);
  expect(changes.counts.affected).toBe(status === "removed" ? 0 : 1);
});

test("those of a hop with another name differ in nothing", async () => {
  const changes = await changed((repository) => {
    repository.edit("hops/north.hop", "hop KELD-MOSS", "hop SOUTHERN");
    repository.edit("licences.hop", "of KELD-MOSS", "of SOUTHERN");
  });
  expect([changes.counts.renamed, changes.shared, changes.licences]).toEqual([1, [], []]);
});

test("and if one of them says something else too, that alone is told", async () => {
  const changes = await changed((repository) => {
    repository.edit("hops/north.hop", "hop KELD-MOSS", "hop SOUTHERN");
    repository.edit("licences.hop", "of KELD-MOSS from KELD {\n", "of SOUTHERN from KELD {\n  height 40 m\n");
  });
  expect(changes.shared).toMatchObject([
    {
      entry: 'licence "L-2" of SOUTHERN from KELD',
      status: "changed",
      decisions: [{ was: undefined, is: "height 40 m" }],
    },
  ]);
});
