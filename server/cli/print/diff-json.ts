/** `diff` for programs. */
import type { ChangeSet } from "../../../shared/compare/change-set.js";
import type { FindingChange } from "../../../shared/compare/findings.js";
import { goesOn, type TimedChanges } from "../../../shared/compare/times.js";
import type { ComparedDesign, FolderComparison } from "../../compare/compare-folders.js";
import { shownFrom } from "../../findings/paths.js";
import { keyOf, Placer } from "../../findings/placed.js";
import { VERSION } from "../../version.js";
import type { DesignChangeOutput, DiffOutput, FindingChangeOutput, WithFindings } from "./diff-output.js";
import type { DiffFormat } from "./format.js";
import { findingOutput } from "./json.js";
import { jsonText } from "./json-text.js";

export const diffJson: DiffFormat = {
  name: "json",
  what: "everything that differs, for programs",
  print: printDiffJson,
};

function printDiffJson(compared: FolderComparison): Iterable<string> {
  const { repository, was, is, on, notes, unreadable, designs } = compared;
  const output: DiffOutput = {
    schema: "hopwright-diff/2",
    version: VERSION,
    was: { name: was.name, commit: was.commit },
    is: is && { name: is.name, commit: is.commit },
    on,
    worse: designs.some(isAnyWorse),
    notes,
    unreadable: unreadable.map(({ path, message }) => ({ file: shownFrom(repository.root, path), message })),
    designs: designs.map((design) => designOutput(design, repository.root)),
  };
  return [`${jsonText(output, 1)}\n`];
}

function designOutput(design: ComparedDesign, top: string): DesignChangeOutput {
  const { root, movedFrom, title, times } = design;
  return {
    folder: shownFrom(top, root),
    movedFrom: movedFrom === undefined ? undefined : shownFrom(top, movedFrom),
    title,
    ...changesOutput(design.changes, design, top),
    worse: isAnyWorse(design),
    times:
      times.every(goesOn) && times.length < 2 ? undefined : times.map((one) => timeOutput(one, design, top)),
  };
}

function isAnyWorse({ times }: ComparedDesign): boolean {
  return times.some(({ changes }) => changes.worse);
}

/** Its findings are placed as the text stands then: addresses count what stands. */
function timeOutput(time: TimedChanges, design: ComparedDesign, top: string) {
  const { span, changes } = time;
  const { model, today } = design.is;
  const { view } = model;
  if (!goesOn(time)) model.setView({ on: span.from || today });
  const output = changesOutput(changes, design, top);
  model.setView(view);
  return { from: span.from || undefined, until: goesOn(time) ? undefined : span.until, ...output };
}

function changesOutput(
  changes: ChangeSet,
  { root, is }: ComparedDesign,
  top: string,
): Omit<DesignChangeOutput, "folder" | "movedFrom" | "title" | "times"> {
  const placer = new Placer(is.model);
  const finding = (change: FindingChange) => findingChange(change, placer, root, top);
  const withFindings = <T extends { readonly findings: readonly FindingChange[] }>(
    change: T,
  ): Omit<T, "findings"> & WithFindings => ({ ...change, findings: change.findings.map(finding) });
  return {
    worse: changes.worse,
    counts: changes.counts,
    hops: changes.hops.map(withFindings),
    sites: changes.sites.map(withFindings),
    shared: changes.shared.map(withFindings),
    findings: changes.findings.map(finding),
    demands: changes.demands,
    loads: changes.loads,
    orders: changes.orders,
    ports: changes.ports,
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
