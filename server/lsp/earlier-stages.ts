/**
 * What is wrong before all that is planned stands. The session of a design looks at its last stage; a second one walks
 * through those before it, from today on, and keeps what it finds there and the last stage does not say.
 */
import { type Diagnostic, DiagnosticSeverity } from "vscode-languageserver";
import { DesignModel } from "../../language/model/design-model.js";
import { spanWords } from "../../shared/design/state.js";
import { acceptanceDay, stagesOf } from "../findings/stages.js";
import { DesignSession, type Pace } from "../session/design-session.js";
import { diagnosticsOf } from "./diagnostics.js";

/** Diagnostics by file, each with the time in which it holds. */
export type EarlierDiagnostics = ReadonlyMap<string, readonly Diagnostic[]>;

export class EarlierStages {
  private readonly walkers = new WeakMap<
    DesignSession,
    { readonly walker: DesignSession; readonly revision: number }
  >();

  /** @returns undefined where the walk became stale; empty where the design has one stage only */
  async walk(session: DesignSession, pace: Pace): Promise<EarlierDiagnostics | undefined> {
    const days = stagesOf(session.model, session.today, {});
    const found = new Map<string, Found[]>();
    if (days.length === 1) return new Map();
    const walker = this.walkerOf(session);
    for (const [index, on] of days.slice(0, -1).entries()) {
      walker.model.setView({ on });
      walker.holdAcceptancesOn(acceptanceDay(on, days[index - 1], session.today));
      await walker.update(pace);
      await walker.updateNetworkInSteps(pace);
      if (pace.isStale?.()) return undefined;
      for (const file of walker.model.allFiles()) {
        const known = new Set(diagnosticsOf(file, [session]).map(identity));
        const own = diagnosticsOf(file, [walker]).filter(
          (one) => !known.has(identity(one)) && !isRemark(one),
        );
        note(found, file.path, own, index);
        await pace.pause?.(0, 0);
      }
    }
    return new Map(
      [...found].map(([path, all]) => [
        path,
        all.map(({ diagnostic, first, last }) => timed(diagnostic, first, last, days)),
      ]),
    );
  }

  /** A second session on the same files, kept for the next walk: only files that differ are put in anew. */
  private walkerOf(session: DesignSession): DesignSession {
    const known = this.walkers.get(session);
    // Ground that changed is read anew.
    const walker =
      known?.revision === session.groundRevision
        ? known.walker
        : new DesignSession(new DesignModel(session.model.root), { today: session.today });
    walker.beginDay(session.today);
    this.walkers.set(session, { walker, revision: session.groundRevision });
    const { model } = walker;
    for (const { path } of [...model.allFiles()]) if (!session.model.file(path)) model.removeFile(path);
    for (const file of session.model.allFiles()) if (model.file(file.path) !== file) model.setFile(file);
    return walker;
  }
}

interface Found {
  readonly diagnostic: Diagnostic;
  readonly first: number;
  last: number;
}

function note(
  found: Map<string, Found[]>,
  path: string,
  diagnostics: readonly Diagnostic[],
  stage: number,
): void {
  const all = found.get(path) ?? [];
  for (const diagnostic of diagnostics) {
    const run = all.find((one) => one.last >= stage - 1 && identity(one.diagnostic) === identity(diagnostic));
    if (run) run.last = stage;
    else all.push({ diagnostic, first: stage, last: stage });
  }
  if (all.length > 0) found.set(path, all);
}

function timed(diagnostic: Diagnostic, first: number, last: number, days: readonly string[]): Diagnostic {
  const words = spanWords({ from: first === 0 ? "" : days[first]!, until: days[last + 1] ?? "~" });
  const [line = "", ...help] = String(diagnostic.message).split("\n");
  return { ...diagnostic, message: [`${line} (${words})`, ...help].join("\n") };
}

/** Remarks rest on the network that is to be. */
function isRemark({ severity }: Diagnostic): boolean {
  return severity === DiagnosticSeverity.Information;
}

function identity({ range, code, message }: Diagnostic): string {
  return JSON.stringify([range, code, message]);
}
