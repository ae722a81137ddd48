/** What each side of a paper carries: which design it is of, and which state of it. */
import type { DesignRevision } from "../../design/revision.js";
import { MAGNETIC_YEARS } from "../../geodesy/magnetic.js";
import type { Page } from "../document/document.js";
import type { SheetWords } from "./words/sheet-words.js";

export function runningTitle(
  design: string | undefined,
  revision: DesignRevision,
  words: Pick<SheetWords, "revision" | "day">,
): string {
  return [...(design === undefined ? [] : [design]), revisionText(revision, words)].join(" · ");
}

/** The page with the running title, unless it has one of its own, and with the day of the commit where nothing differs from it. */
export function withRunning(page: Page, running: string, revision: DesignRevision): Page {
  const isWhole = revision.state === "committed" && !revision.changed && !revision.filesBeside;
  const told = isWhole && revision.day !== undefined ? { ...page, commitDay: revision.day } : page;
  return told.running === undefined ? { ...told, running } : told;
}

function revisionText(told: DesignRevision, { revision, day }: Pick<SheetWords, "revision" | "day">): string {
  if (told.state === "not in git") return revision.notInGit;
  if (told.state === "not read") return revision.notRead;
  return [
    revision.committed(told.commit, told.day === undefined ? undefined : day(told.day)),
    ...(told.changed ? [revision.changed] : []),
    ...(told.filesBeside ? [revision.filesBeside] : []),
  ].join(", ");
}

/** The day that compass bearings are for. */
export interface MagneticDay {
  /** ISO date. */
  readonly day: string;
  /** The network states none: it is that of the commit. */
  readonly ofCommit?: true;
}

/** @returns undefined where neither network nor commit has one: bearings for a compass are left out then */
export function magneticDayOf(stated: string | undefined, revision: DesignRevision): MagneticDay | undefined {
  if (stated !== undefined) return { day: stated };
  const day = revision.state === "committed" ? revision.day : undefined;
  return day === undefined ? undefined : { day, ofCommit: true };
}

/** What is to be said of the bearings, and whether there are any. */
export function compassTold(
  magnetic: MagneticDay | undefined,
  { facts, revision, day }: SheetWords,
): { readonly text: string; readonly day?: string } {
  if (magnetic === undefined) return { text: facts.noMagneticDay };
  const year = Number(magnetic.day.slice(0, 4));
  const of = magnetic.ofCommit ? ` ${revision.compassOfCommit}` : "";
  if (year < MAGNETIC_YEARS.from || year >= MAGNETIC_YEARS.to)
    return { text: `${revision.outsideYears(day(magnetic.day))}${of}` };
  return { text: `${facts.compassTold}${of}`, day: magnetic.day };
}
