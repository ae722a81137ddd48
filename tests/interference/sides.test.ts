/** Lists in a comparison: each side has its own, and what the network states of interference is a change like any other. */
import { afterEach, expect, test } from "vitest";
import { compareFolder } from "../../server/compare/compare-folders.js";
import { repositoryOf, revisionOf } from "../../server/git/repository.js";
import { EXAMPLE_PREAMBLE, exampleHop } from "../../shared/rules/example-preamble.js";
import { TestRepository, TODAY } from "../compare/repository.js";

const repository = TestRepository.create();
afterEach(() => repository.remove());

const design = (aggregate: string) => `${EXAMPLE_PREAMBLE}
interference {
  single-entry 1 dB
  aggregate ${aggregate}
}
others "register.csv" {
  latitude "lat"
  longitude "lon"
  frequency "f" in MHz
  bandwidth "b" in MHz
  eirp "p" in dBm
}

${exampleHop()}
`;
const ROW = "47.52,-30.45,18715,27.5,60\n";

test("a commit is judged with the list that it has", async () => {
  repository.write({
    "main.hop": design("3 dB"),
    "register.csv": `lat,lon,f,b,p\n${ROW}47.5,-30.4,high,28,60\n`,
  });
  repository.commit("base");
  repository.write({ "main.hop": design("2 dB"), "register.csv": `lat,lon,f,b,p\n${ROW}` });
  const at = await repositoryOf(repository.root);
  const compared = await compareFolder(at, repository.root, await revisionOf(at, "HEAD"), undefined, {
    today: TODAY,
  });
  try {
    const [{ was, is, changes }] = compared.designs as [(typeof compared.designs)[0]];
    const rows = async (session: typeof was) =>
      [...(await session.readListed()).others.values()].map((read) =>
        "unusable" in read ? read : read.rows,
      );
    expect([await rows(was), await rows(is)]).toEqual([[2], [1]]);
    expect(JSON.stringify(changes)).toContain("aggregate 2 dB");
  } finally {
    compared.dispose();
  }
});
