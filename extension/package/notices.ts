/**
 * What a bundle holds of others: told to whoever gets it, with the words their licences ask for. A package that is in
 * a bundle twice, or comes without terms, fails the build.
 */
import { existsSync, readdirSync, readFileSync } from "node:fs";
import { join } from "node:path";
import type { Metafile } from "esbuild";

/** Packages whose archive lacks the text of its licence: where the text stands, and the notice their sources carry. */
const TEXT_ELSEWHERE: Readonly<Record<string, { readonly textOf: string; readonly notice: string }>> = {
  dfa: { textOf: "restructure", notice: "Copyright Devon Govett. The terms are those of restructure:" },
  fontkit: { textOf: "restructure", notice: "Copyright Devon Govett. The terms are those of restructure:" },
  lerc: { textOf: "web-worker", notice: "Copyright 2015-2021 Esri" },
  saxes: {
    textOf: "d3-array",
    notice: "Copyright Louis-Dominique Dubeau. ISC licence; its terms are these, which name another holder:",
  },
};

/** Terms that a bundle under MIT may carry along. */
const FREE = new Set([
  "MIT",
  "ISC",
  "BSD-2-Clause",
  "BSD-3-Clause",
  "Apache-2.0",
  "BlueOak-1.0.0",
  "CC0-1.0",
  "Zlib",
  // Of fonts: free to use, to embed and to pass on with other software; not to be sold alone.
  "Bitstream-Vera",
]);

/** Packages that name no licence but a file: what its text amounts to. */
const TERMS_IN_FILE: Readonly<Record<string, string>> = {
  "dejavu-fonts-ttf": "Bitstream-Vera",
  "png-js": "MIT",
};

/** Folders of packages with the work of others in them, which has terms of its own. */
const WITHIN: Readonly<Record<string, readonly string[]>> = {
  pdfmake: ["src/3rd-party/svg-to-pdfkit"],
};

/**
 * Folders of the packages in one bundle, sorted.
 * @throws when two copies of a package are in it
 */
export function packagesIn({ outputs }: Pick<Metafile, "outputs">): string[] {
  const folders = new Set<string>();
  for (const { inputs } of Object.values(outputs)) {
    for (const [path, { bytesInOutput }] of Object.entries(inputs)) {
      const folder = /^.*node_modules\/(?:@[^/]+\/)?[^/]+/.exec(path)?.[0];
      if (folder !== undefined && bytesInOutput > 0) folders.add(folder);
    }
  }
  const sorted = [...folders].sort();
  const twice = sorted.filter((one) =>
    sorted.some((other) => other !== one && nameOf(other) === nameOf(one)),
  );
  if (twice.length > 0)
    throw new Error(`in one bundle twice: ${twice.join(", ")}; see "overrides" in package.json`);
  return sorted;
}

/**
 * The notices of all packages, one after another by name.
 * @throws when a package has no terms, or other ones than a free bundle may carry
 */
export function noticesOf(folders: readonly string[]): string {
  const byName = new Map(folders.map((folder) => [nameOf(folder), folder]));
  const each = [...byName]
    .sort(([a], [b]) => (a < b ? -1 : 1))
    .map(([name, folder]) => noticeOf(name, folder));
  return `Hopwright contains parts of the packages below, each under its own terms.\n\n${each.join("\n")}`;
}

function noticeOf(name: string, folder: string): string {
  const { version, license: stated } = JSON.parse(readFileSync(join(folder, "package.json"), "utf8"));
  const license = TERMS_IN_FILE[name] ?? stated;
  const terms = String(license).replace(/[()]/g, "").split(" AND ");
  if (!terms.every((one) => FREE.has(one)))
    throw new Error(`${folder}: licence ${license} is not among those that may be bundled`);
  const rule = "-".repeat(72);
  return `${rule}\n${name} ${version} (${license})\n${rule}\n\n${termsOf(name, folder)}\n`;
}

function termsOf(name: string, folder: string): string {
  const elsewhere = TEXT_ELSEWHERE[name];
  const within = (WITHIN[name] ?? []).flatMap((path) => textsIn(join(folder, path)));
  const texts = [...textsIn(folder), ...within];
  if (texts.length > 0) return texts.join("\n\n");
  const borrowed = elsewhere && textsIn(join("node_modules", elsewhere.textOf));
  if (!borrowed?.length) throw new Error(`${folder}: no text of its licence; add it to TEXT_ELSEWHERE`);
  return [elsewhere!.notice, ...borrowed].join("\n\n");
}

function textsIn(folder: string): string[] {
  if (!existsSync(folder)) return [];
  return readdirSync(folder)
    .filter((file) => /^(licen[cs]e|copying|notice|third.?party.?notices)/i.test(file))
    .sort()
    .map((file) =>
      readFileSync(join(folder, file), "utf8")
        .replace(/^\uFEFF/, "")
        .replace(/\r\n?/g, "\n")
        .trim(),
    );
}

function nameOf(folder: string): string {
  return folder.slice(folder.lastIndexOf("node_modules/") + "node_modules/".length);
}
