// Bundles the command line (which is the language server too), its terrain thread and the extension. CommonJS,
// because some bundled libraries are CommonJS inside and an ESM bundle would need a require shim.
import { chmodSync, rmSync, writeFileSync } from "node:fs";
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

const common = {
  plugins: [noBrowserWorker],
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
    entryPoints: ["extension/extension.ts"],
    outfile: "dist/extension.cjs",
    external: ["vscode"],
  }),
]);

writeFileSync("dist/notices.txt", noticesOf(bundles.flatMap(({ metafile }) => packagesIn(metafile))));

// npm makes a program executable when it links it, and not again when it is built anew.
chmodSync("dist/hopwright.cjs", 0o755);
