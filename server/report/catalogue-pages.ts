/** Pages that teach the entries of a design's catalogue. */
import { aroundParts, lessonOfPart } from "../../language/docs/part-lesson.js";
import type { PartKind } from "../../shared/design/equipment.js";
import { partsOfNetwork } from "../../shared/equipment/parts-list.js";
import type { Page } from "../../shared/report/document/document.js";
import { type CatalogueEntry, cataloguePage, lessonPage } from "../../shared/report/pages/lesson-page.js";
import type { TaughtKind } from "../../shared/report/teach/part-rules.js";
import type { JudgedDesign } from "../findings/judged-folder.js";
import { fileNames } from "./names.js";
import { colophon, type PageOptions } from "./page-material.js";

export function isTaught(kind: string): kind is TaughtKind {
  return KINDS.some(([taught]) => taught === kind);
}

/**
 * The page of an entry by itself, whether the design uses it or not.
 * @param entry `card FERN`
 * @returns undefined where there is none, or none that can be read yet
 */
export function pageOfEntry(design: JudgedDesign, entry: string, options: PageOptions): Page | undefined {
  const { model } = design;
  const [kind = "", name = ""] = entry.split(" ");
  if (!isTaught(kind) || model.declarations(entry).length === 0) return undefined;
  const lesson = lessonOfPart(kind, name, model, aroundParts(model));
  return lesson && lessonPage({ name: `${options.folder}${kind}`, lesson, colophon: colophon(design) });
}

function catalogueName({ folder }: PageOptions): string {
  return `${folder}catalogue`;
}

/** Kinds of entries that have a page, and what a parts list calls them. */
const KINDS: readonly (readonly [TaughtKind, PartKind])[] = [
  ["radio", "unit"],
  ["antenna", "antenna"],
  ["coupler", "coupler"],
  ["card", "card"],
  ["chassis", "chassis"],
  ["cable", "cable"],
  ["feeder", "feeder"],
];

/** The list of entries that the design uses first, then a page for each; nothing where there is none. */
export function* cataloguePages(design: JudgedDesign, options: PageOptions): Iterable<Page> {
  const { model } = design;
  const around = aroundParts(model);
  const lastLine = colophon(design);
  const parts = partsOfNetwork(around.design);
  const taught = KINDS.flatMap(([kind, called]) => {
    const used = new Set(parts.filter((part) => part.kind === called).map(({ name }) => name));
    const names = model.names(kind).filter((name) => used.has(name));
    const files = fileNames(names);
    return names.flatMap((name) => {
      const lesson = lessonOfPart(kind, name, model, around);
      const page = `${options.folder}catalogue/${kind}-${files.get(name)}`;
      return lesson ? [{ kind, name, lesson, page }] : [];
    });
  });
  if (taught.length === 0) return;
  const entries = taught.map(
    ({ kind, name, lesson, page }): CatalogueEntry => ({ kind, name, title: lesson.subtitle, page }),
  );
  yield cataloguePage({
    name: catalogueName(options),
    entries,
    up: { text: design.title ?? "Overview", page: `${options.folder}index` },
    colophon: lastLine,
  });
  const up = { text: "Catalogue", page: catalogueName(options) };
  for (const { lesson, page } of taught) yield lessonPage({ name: page, lesson, up, colophon: lastLine });
}
