/** The editor and the command line say the same of a design: of what is missed, open, accepted, and of what is wrong with its text. */
import { mkdirSync, mkdtempSync, rmSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { afterAll, beforeAll, expect, test } from "vitest";
import type { CheckOutput } from "../../server/cli/print/check-output.js";
import { run } from "../cli/built.js";
import { files, hop } from "../compare/network.js";
import { Editor } from "./client.js";

const TARN_LOW = hop("KELD-TARN", "KELD", "TARN", 4);
const DESIGN: Record<string, string> = {
  ...files(),
  // From the defaults an objective, which these hops leave open or miss in several ways.
  "hops/open.hop": [
    TARN_LOW.replace("KELD-TARN", "NO-HEIGHT").replace("antenna DISH60-18 at 40 m", "antenna DISH60-18"),
    // On a channel that no other hop is near: else interference is what is told of it.
    hop("KELD-TARN", "KELD", "TARN", 15)
      .replace("KELD-TARN", "NO-CLIMATE")
      .replace("  KELD {", "  climate {\n    multipath preceding\n  }\n  KELD {"),
    TARN_LOW.replace("KELD-TARN", "NO-SURVEY").replace("  KELD {", '  survey "none.csv" from KELD\n  KELD {'),
    "hop ONE-END {\n  KELD {\n  }\n}\n",
    'hop ONE-END-ACCEPTED {\n  KELD {\n  }\n  accept not-judged because "no second site yet"\n}\n',
    TARN_LOW.replace("KELD-TARN", "NO-RADIO").replace("  KELD {", "  radio R19\n  KELD {"),
    TARN_LOW.replace("KELD-TARN", "ACCEPTED")
      .replace("antenna DISH60-18 at 40 m", "antenna DISH60-18")
      .replace("  KELD {", '  accept not-judged because "the mast is not chosen"\n  KELD {'),
  ].join("\n"),
  "hops/missed.hop": [
    hop("PEAK-TARN", "PEAK", "TARN", 9, { heightM: 3 }),
    hop("PEAK-MOSS", "PEAK", "MOSS", 9, { each: "extra-loss 30 dB" }),
    hop("FELL-MOSS", "FELL", "MOSS", 9, {
      each: "extra-loss 30 dB",
      more: 'accept level-below-threshold because "x"',
    }),
  ].join("\n"),
  // The letter of the longitude is wrong.
  "hops/slip.hop": `site FAR {\n  at 47.52 30.4\n}\n\n${hop("KELD-FAR", "KELD", "FAR", 9)}`,
  "policy.hop":
    "severity level-below-threshold info\nseverity clearance warning\nseverity not-judged info\nrequired fade-margin\n",
};

const folder = mkdtempSync(join(tmpdir(), "hopwright-same-"));
let editor: Editor;

beforeAll(async () => {
  for (const [path, text] of Object.entries(DESIGN)) {
    mkdirSync(join(folder, path, ".."), { recursive: true });
    writeFileSync(join(folder, path), text);
  }
  editor = await Editor.start(folder);
  await editor.settled();
}, 180_000);
afterAll(async () => {
  await editor.stop();
  rmSync(folder, { recursive: true, force: true });
});

const SEVERITIES = ["", "error", "warning", "info"];

/** Rule, severity and place of everything that the editor shows. */
function shown(): string[] {
  return Object.keys(DESIGN)
    .filter((path) => path.endsWith(".hop"))
    .flatMap((path) =>
      editor
        .of(path)
        .map(
          ({ code, severity, range }) =>
            `${path}:${range.start.line + 1} ${SEVERITIES[severity ?? 0]} ${code}`,
        ),
    )
    .sort();
}

function checked(): string[] {
  const { stdout, status } = run(["check", ".", "--format", "json"], { cwd: folder });
  expect(status).toBe(1);
  const { designs } = JSON.parse(stdout) as CheckOutput;
  return designs
    .flatMap(({ findings }) => findings)
    .map(({ rule, severity, place }) => `${place?.file}:${place?.line} ${severity} ${rule}`)
    .sort();
}

test("the same findings at the same places, as opened and after edits", async () => {
  const printed = checked();
  expect(shown()).toEqual(printed);
  const of = (path: string, severity: string) =>
    printed
      .filter((one) => one.startsWith(path) && one.includes(` ${severity} `))
      .map((one) => one.split(" ")[2]);
  expect(of("hops/open.hop", "error").toSorted()).toEqual([
    ...Array.from({ length: 5 }, () => "not-judged"),
    "required-accepted",
    "required-accepted",
    "survey-unusable",
    "unknown-name",
  ]);
  editor.open("hops/open.hop");
  editor.replace(
    "hops/open.hop",
    "hop ONE-END {\n  KELD {\n  }\n",
    "hop ONE-END {\n  objective idle\n  KELD {\n  }\n",
  );
  editor.replace("hops/open.hop", "multipath preceding", "multipath quick");
  writeFileSync(join(folder, "hops/open.hop"), editor.text("hops/open.hop"));
  await editor.settled();
  expect(shown()).toEqual(checked());
}, 120_000);
