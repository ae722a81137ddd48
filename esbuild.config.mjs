// Bundles the command line (which is the language server too), its terrain thread and the extension. CommonJS,
// because some bundled libraries are CommonJS inside and an ESM bundle would need a require shim.
import { chmodSync, cpSync, rmSync, writeFileSync } from "node:fs";
import { resolve } from "node:path";
import { build } from "esbuild";
import { noticesOf, packagesIn } from "./extension/package/notices.ts";

/** geotiff brings a second copy of itself, as text for a browser's worker; blocks are unpacked here. */
const noBrowserWorker = {
  name: "no-browser-worker",
  setup: ({ onLoad }) =>
    onLoad({ filter: /geotiff[\\/]dist-module[\\/]worker[\\/]create\.js$/ }, () => ({
      contents: 'export default () => { throw new Error("there is no browser here"); };',
    })),
};

/** PDFs are made by a bundle of their own, which is loaded when one is asked for. */
const pdfApart = {
  name: "pdf-apart",
  setup: ({ onResolve }) =>
    onResolve({ filter: /\/pdf\/make\.js$/ }, ({ kind }) =>
      kind === "dynamic-import" ? { path: "./pdf.cjs", external: true } : undefined,
    ),
};

/**
 * A font is read and taken apart once for all documents, and no other file is read; fonts of the web, packed otherwise,
 * are none of ours.
 */
const fontsOnce = {
  name: "fonts-once",
  setup: ({ onLoad, onResolve }) => {
    onResolve({ filter: /^brotli/ }, ({ path }) => ({ path, namespace: "none" }));
    onLoad({ filter: /^brotli/, namespace: "none" }, () => ({
      contents: 'module.exports = () => { throw new Error("no packed font is opened here"); };',
    }));
    onResolve({ filter: /^(fontkit|fs)$/ }, ({ importer }) =>
      /node_modules[\\/]pdfkit[\\/]/.test(importer)
        ? { path: resolve("server/pdf/open-fonts.ts") }
        : undefined,
    );
  },
};

const common = {
  plugins: [noBrowserWorker, pdfApart],
  bundle: true,
  platform: "node",
  target: "node22",
  format: "cjs",
  minify: !process.argv.includes("--dev"),
  sourcemap: process.argv.includes("--dev"),
  logLevel: "warning",
  // The terms of what is bundled stand in dist/notices.txt, whole and once.
  legalComments: "none",
  metafile: true,
  // import.meta.url is empty in CommonJS output; give bundled ESM code the file it runs from.
  define: { "import.meta.url": "__bundleUrl" },
  banner: { js: 'const __bundleUrl=require("node:url").pathToFileURL(__filename).href;' },
};

// Bundles of earlier builds must not be packed.
rmSync("dist", { recursive: true, force: true });
const bundles = await Promise.all([
  build({
    ...common,
    entryPoints: ["server/cli/main.ts"],
    outfile: "dist/hopwright.cjs",
    banner: { js: `#!/usr/bin/env node\n${common.banner.js}` },
  }),
  build({ ...common, entryPoints: ["server/terrain/thread.ts"], outfile: "dist/terrain-thread.cjs" }),
  build({
    ...common,
    plugins: [fontsOnce],
    entryPoints: ["server/pdf/make.ts"],
    outfile: "dist/pdf.cjs",
  }),
  build({
    ...common,
    entryPoints: ["extension/extension.ts"],
    outfile: "dist/extension.cjs",
    external: ["vscode"],
  }),
]);

const FONTS = "node_modules/dejavu-fonts-ttf";
for (const cut of ["DejaVuSans.ttf", "DejaVuSans-Bold.ttf"])
  cpSync(`${FONTS}/ttf/${cut}`, `dist/fonts/${cut}`);

const packages = [...bundles.flatMap(({ metafile }) => packagesIn(metafile)), FONTS];
writeFileSync("dist/notices.txt", noticesOf(packages));

// npm makes a program executable when it links it, and not again when it is built anew.
chmodSync("dist/hopwright.cjs", 0o755);
