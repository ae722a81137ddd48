/** What hops and sites state of their own, for the sheets that are about them. */
import type { DesignModel } from "../../language/model/design-model.js";
import { ownFieldsOf } from "../../language/resolve/sheets.js";
import type { OwnField } from "../../shared/design/sheets.js";
import { fileNames } from "../report/names.js";

type FieldsOf = (file: string) => readonly OwnField[];

/**
 * By the file name of the sheet. Of a hop its own and those of its sites, which say where they are of.
 * @param about what the sheets are about, one each
 */
export function ownFields(model: DesignModel, about: "hop" | "site" | undefined): FieldsOf {
  if (about === undefined) return () => [];
  const names = new Map([...fileNames(model.names(about))].map(([name, file]) => [file, name]));
  const stated = (kind: "hop" | "site", name: string) =>
    ownFieldsOf(model.declarations(`${kind} ${name}`)[0]?.fact.facts ?? []);
  return (file) => {
    const name = names.get(file);
    if (name === undefined) return [];
    if (about === "site") return stated("site", name);
    const sites = model.hop(name)?.hop?.ends.map(({ site }) => site.name) ?? [];
    return [
      ...stated("hop", name),
      ...sites.flatMap((site) => stated("site", site).map((one) => ({ ...one, at: site }))),
    ];
  };
}
