/** `demands`: what the network is to carry, over which hops, and what it comes to when something fails. */

import { nearest } from "../../../shared/format/nearest.js";
import { CommandError } from "../../command-error.js";
import { type JudgedDesign, judgeFolder } from "../../findings/judged-folder.js";
import { isOfDemands } from "../../findings/of-demands.js";
import { FORMATS, formatNamed } from "../formats.js";
import type { DesignDemands } from "../print/format.js";
import { noteTime } from "../print/note-time.js";
import { tellUnreadable } from "../print/unreadable.js";
import { progressLine } from "../progress.js";
import { paintStdout, print, terminalColumns } from "../streams.js";
import { statusOf } from "./check.js";

export interface DemandsOptions {
  readonly format: string;
  /** This one alone, hop by hop. */
  readonly demand?: string;
  readonly today: string;
  /** The day that is looked at; left out: all that is planned stands. */
  readonly on?: string;
}

/** @returns the exit status, as of `check`, of what is found on demands */
export async function demands(folder: string, options: DemandsOptions): Promise<number> {
  const { today, on, demand } = options;
  const progress = progressLine();
  const judged = await judgeFolder(folder, { today, pace: progress.pace, times: { on } });
  progress.end();
  tellUnreadable(judged);
  const holding =
    demand === undefined
      ? judged.designs
      : judged.designs.filter(({ session }) => session.demands()?.demands.has(demand));
  if (demand !== undefined && holding.length === 0) throw noSuchDemand(demand, judged.designs);
  const status = statusOf(judged, (one) => !one.accepted && one.severity === "error" && isOfDemands(one));
  process.exitCode = status;
  const format = formatNamed(FORMATS.demands, options.format);
  const designs = holding.map((design) => carriedBy(design));
  await print(await format.print({ designs, only: demand, paint: paintStdout, columns: terminalColumns() }));
  const [only] = holding;
  if (only && holding.length === 1) noteTime(only);
  return status;
}

function carriedBy(design: JudgedDesign): DesignDemands {
  return { design, result: design.session.demands(), findings: design.findings.filter(isOfDemands) };
}

function noSuchDemand(name: string, designs: readonly JudgedDesign[]): CommandError {
  const names = designs.flatMap(({ session }) => [...(session.demands()?.demands.keys() ?? [])]);
  const meant = nearest(name, names);
  const remedy =
    meant !== undefined
      ? `; did you mean ${meant}?`
      : names.length === 0
        ? "; the design states no demand that stands"
        : "; hopwright demands lists them";
  return new CommandError(`${name}: there is no such demand${remedy}`);
}
