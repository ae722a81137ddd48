/** `diff` for programs. */
import type { FindingChange } from "../../../shared/compare/findings.js";
import type { ComparedDesign, FolderComparison } from "../../compare/compare-folders.js";
import { shownFrom } from "../../findings/paths.js";
import { keyOf, Placer } from "../../findings/placed.js";
import { VERSION } from "../../version.js";
import type { DesignChangeOutput, DiffOutput, FindingChangeOutput, WithFindings } from "./diff-output.js";
import { findingOutput } from "./json.js";
import { jsonText } from "./json-text.js";

export function printDiffJson(compared: FolderComparison): Iterable<string> {
  const { repository, was, is, notes, unreadable, designs } = compared;
  const output: DiffOutput = {
    schema: "hopwright-diff/2",
    version: VERSION,
    was: { name: was.name, commit: was.commit },
    is: is && { name: is.name, commit: is.commit },
    worse: designs.some(({ changes }) => changes.worse),
    notes,
    unreadable: unreadable.map(({ path, message }) => ({ file: shownFrom(repository.root, path), message })),
    designs: designs.map((design) => designOutput(design, repository.root)),
  };
  return [`${jsonText(output, 1)}\n`];
}

function designOutput(design: ComparedDesign, top: string): DesignChangeOutput {
  const { root, movedFrom, title, changes } = design;
  const placer = new Placer(design.is.model);
  const finding = (change: FindingChange) => findingChange(change, placer, root, top);
  const withFindings = <T extends { readonly findings: readonly FindingChange[] }>(
    change: T,
  ): Omit<T, "findings"> & WithFindings => ({ ...change, findings: change.findings.map(finding) });
  return {
    folder: shownFrom(top, root),
    movedFrom: movedFrom === undefined ? undefined : shownFrom(top, movedFrom),
    title,
    worse: changes.worse,
    counts: changes.counts,
    hops: changes.hops.map(withFindings),
    sites: changes.sites.map(withFindings),
    shared: changes.shared.map(withFindings),
    findings: changes.findings.map(finding),
    orders: changes.orders,
    licences: changes.licences,
  };
}

function findingChange(
  change: FindingChange,
  placer: Placer,
  root: string,
  top: string,
): FindingChangeOutput {
  const { status, rule, severity, message, is, was } = change;
  return {
    status,
    rule,
    severity,
    message,
    was: was && is ? was.message : undefined,
    key: keyOf((is ?? was)!),
    place: is && findingOutput(placer.ofFinding(is), root, top).place,
    accepted: is?.accepted,
  };
}
