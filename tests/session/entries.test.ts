/** What is told at once of the catalogue entries of a file is what the whole network is told of them later. */
import { join } from "node:path";
import fc from "fast-check";
import { beforeAll, expect, it } from "vitest";
import type { DesignModel } from "../../language/model/design-model.js";
import { readSource } from "../../language/model/source-file.js";
import { DesignSession } from "../../server/session/design-session.js";
import { loadProject } from "../../server/session/load.js";
import type { Finding } from "../../shared/design/finding.js";
import { ENTRY_RULES } from "../../shared/rules/judge-entries.js";

const SAMPLE = join(import.meta.dirname, "../../samples/eskerfold").replaceAll("\\", "/");

let model: DesignModel;
let session: DesignSession;

beforeAll(async () => {
  model = loadProject(SAMPLE).project.designs()[0]!;
  session = new DesignSession(model, { today: "2026-01-01" });
  await session.update();
  session.updateNetwork();
});

const told = (path: string) =>
  session
    .networkFindingsIn(path)
    .filter(({ rule }) => ENTRY_RULES.has(rule))
    .map((one: Finding) => JSON.stringify(one))
    .sort();

it("whatever figures of a file are written over, and with them what some hop uses", async () => {
  const paths = [...model.allFiles()].map(({ path }) => path).filter((path) => path.includes("/catalogue/"));
  expect(paths.length).toBeGreaterThan(1);
  let found = 0;
  await fc.assert(
    fc.asyncProperty(
      fc.constantFrom(...paths),
      fc.array(fc.tuple(fc.nat(), fc.constantFrom("0", "3", "-20", "-95", "200", "0.01")), {
        minLength: 1,
        maxLength: 6,
      }),
      async (path, changes) => {
        const { text } = model.file(path)!;
        let changed = text;
        for (const [pick, by] of changes) {
          const figures = [...changed.matchAll(/(?<= )-?\d+(\.\d+)?(?= )/g)];
          const at = figures[pick % figures.length]!;
          changed = changed.slice(0, at.index) + by + changed.slice(at.index + at[0].length);
        }
        for (const state of [changed, text]) {
          model.setFile(readSource(path, state));
          session.judgeEntriesOf(path);
          const atOnce = told(path);
          await session.update();
          session.updateNetwork();
          expect(atOnce).toEqual(told(path));
          found += atOnce.length;
        }
      },
    ),
    { numRuns: 40 },
  );
  expect(found).toBeGreaterThan(0);
}, 120_000);
