/** `check` as SARIF 2.1.0 (OASIS Standard), for tools that collect the findings of many checkers. */

import { relative, resolve } from "node:path";
import type { Severity } from "../../../shared/design/severity.js";
import { type FileProblem, isUnread } from "../../files/hop-files.js";
import { slashed } from "../../files/slashed.js";
import type { JudgedFolder } from "../../findings/judged-folder.js";
import { knownRules } from "../../findings/known-rules.js";
import { knownBy, type Place, type PlacedFinding, type PlacedRelated } from "../../findings/placed.js";
import { VERSION } from "../../version.js";
import type { Checked, CheckFormat } from "./format.js";
import { jsonText } from "./json-text.js";

export const checkSarif: CheckFormat = {
  name: "sarif",
  what: "SARIF 2.1.0, for tools that collect the findings of many checkers",
  print: ({ judged, ...options }) => printSarif(judged, options),
};

type SarifOptions = Pick<Checked, "cwd" | "baseline">;

const SCHEMA = "https://docs.oasis-open.org/sarif/sarif/v2.1.0/errata01/os/schemas/sarif-schema-2.1.0.json";

const LEVEL: Readonly<Record<Severity, "error" | "warning" | "note">> = {
  error: "error",
  warning: "warning",
  info: "note",
};

/** Result by result: with a hundred thousand of them the whole would be as large as all that is read. */
function* printSarif(judged: JudgedFolder, options: SarifOptions): Iterable<string> {
  const found = judged.designs.flatMap(({ findings, root }) =>
    findings.map((finding) => ({ finding, root })),
  );
  const rules = [...new Set(found.map(({ finding }) => finding.rule))].sort();
  const index = new Map(rules.map((rule, at) => [rule, at]));
  const problems: readonly FileProblem[] = [
    ...judged.unreadable,
    ...judged.designs.flatMap(({ terrainProblems }) => terrainProblems),
  ];
  const run = {
    tool: { driver: { name: "hopwright", semanticVersion: VERSION, rules: rules.map(ruleOf) } },
    columnKind: "utf16CodeUnits",
    invocations: [
      {
        executionSuccessful: !problems.some(isUnread),
        toolExecutionNotifications: problems.map((problem) => ({
          level: isUnread(problem) ? "error" : "warning",
          message: { text: problem.message },
          locations: [{ physicalLocation: { artifactLocation: artifact(problem.path, options) } }],
        })),
      },
    ],
    results: [],
  };
  const whole = jsonText({ $schema: SCHEMA, version: "2.1.0", runs: [run] }, 1);
  const at = whole.lastIndexOf(NO_RESULTS) + NO_RESULTS.length - 1;
  yield whole.slice(0, at);
  for (const [number, { finding, root }] of found.entries()) {
    const result = jsonText(resultOf(finding, root, index, options), 1);
    yield `${number > 0 ? "," : ""}\n${result.replace(/^/gm, "    ")}`;
  }
  yield `${found.length > 0 ? "\n   " : ""}${whole.slice(at)}\n`;
}

const NO_RESULTS = '"results": []';

function ruleOf(id: string) {
  const rule = knownRules().get(id);
  if (!rule) return { id };
  const { title, why, fix, severity } = rule;
  return {
    id,
    shortDescription: { text: title },
    fullDescription: { text: why },
    help: { text: fix },
    defaultConfiguration: { level: LEVEL[severity ?? "error"] },
  };
}

function resultOf(
  finding: PlacedFinding,
  root: string,
  index: ReadonlyMap<string, number>,
  options: SarifOptions,
) {
  const { rule, severity, message, help, hop, place, related, accepted } = finding;
  const text = [message, help].filter((part) => part !== undefined).join("\n");
  const physicalLocation = place && physical(place, options);
  const logicalLocations = hop === undefined ? undefined : [{ name: hop, kind: "member" }];
  return {
    ruleId: rule,
    ruleIndex: index.get(rule),
    level: LEVEL[severity],
    message: { text },
    locations: physicalLocation || logicalLocations ? [{ physicalLocation, logicalLocations }] : [],
    relatedLocations: related.flatMap((one, id) => relatedLocation(one, id, root, options)),
    partialFingerprints: { "hopwright/v1": knownBy(finding) },
    baselineState: options.baseline && (options.baseline(finding) ? "unchanged" : "new"),
    suppressions: accepted && [
      { kind: "inSource", status: "accepted", justification: accepted.reason ?? "no reason is given" },
    ],
  };
}

function relatedLocation(
  { place, file, message }: PlacedRelated,
  id: number,
  root: string,
  options: SarifOptions,
) {
  const physicalLocation = place
    ? physical(place, options)
    : file === undefined
      ? undefined
      : { artifactLocation: artifact(resolve(root, file), options) };
  return physicalLocation ? [{ id, physicalLocation, message: { text: message } }] : [];
}

function physical(place: Place, options: SarifOptions) {
  const { file, line, column, endLine, endColumn, start, end } = place;
  return {
    artifactLocation: artifact(file, options),
    region: {
      startLine: line,
      startColumn: column,
      endLine,
      endColumn,
      charOffset: start,
      charLength: end - start,
    },
  };
}

/** A URI relative to the working directory, which is the top of the checkout where a collector looks for files. */
function artifact(path: string, { cwd }: SarifOptions) {
  const shown = slashed(relative(cwd, path));
  return { uri: shown.toWellFormed().split("/").map(encodeURIComponent).join("/"), uriBaseId: "%SRCROOT%" };
}
