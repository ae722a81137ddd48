import type { Finding } from "../../shared/design/finding.js";

/** All that a finding tells, on lines of its own. */
export function findingText(finding: Finding): string {
  const { rule, severity, at, about, message, help, changes, related = [], notJudged, accepted } = finding;
  return [
    `${severity} ${rule} at ${at}${about === undefined ? "" : ` about ${about}`}: ${message}`,
    ...(help === undefined ? [] : [`  help: ${help}`]),
    ...(changes === undefined ? [] : [`  changes: ${JSON.stringify(changes)}`]),
    ...related.map((one) => `  ${one.at ?? one.file}: ${one.message}`),
    ...(notJudged === undefined ? [] : [`  not judged: ${notJudged.join(", ")}`]),
    ...(accepted === undefined ? [] : [`  accepted: ${JSON.stringify(accepted)}`]),
  ].join("\n");
}
