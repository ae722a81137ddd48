// The libraries of the core: figures, drawings, the ellipsoid. Each runs in a browser.
const CORE = "@dagrejs/dagre|d3-array|d3-scale|d3-shape|geographiclib-geodesic|proj4";

const CHAPTERS = ["account", "path", "level", "fading", "outage"];

// The arrows that must not be there. Imports run one way: extension -> server -> language -> shared.
/** @type {import('dependency-cruiser').IConfiguration} */
module.exports = {
  forbidden: [
    {
      name: "shared-imports-nothing-of-ours",
      severity: "error",
      from: { path: "^shared" },
      to: { path: "^(language|server|extension|tests)" },
    },
    {
      name: "results-are-data-without-words",
      severity: "error",
      from: {
        path: "^shared/(availability|design|equipment|evaluate|geodesy|math|propagation|radio|spectrum|terrain|units)/",
      },
      to: { path: "^shared/(words|rules|report)/" },
    },
    {
      // One floor between what is computed of a hop by itself and what is judged and shown.
      name: "network-between-evaluation-and-rules",
      severity: "error",
      from: {
        path: "^shared/(design|format|geodesy|math|units|propagation|radio|spectrum|terrain|equipment|availability|evaluate)/",
      },
      to: { path: "^shared/(network|rules|report|compare|lists)/" },
    },
    {
      name: "network-below-rules",
      severity: "error",
      from: { path: "^shared/network/" },
      to: { path: "^shared/(rules|report|compare|lists)/" },
    },
    // The chapters of the evaluation, in the order of the signal.
    ...CHAPTERS.map((chapter, index) => ({
      name: `${chapter}-in-the-order-of-the-signal`,
      severity: "error",
      from: { path: `^shared/evaluate/${chapter}/` },
      to: {
        path: `^shared/evaluate/((${CHAPTERS.slice(index + 1).join("|") || "none"})/|[^/]+\\.ts$)`,
        pathNot: "^shared/evaluate/reason\\.ts$",
      },
    })),
    {
      name: "language-below-server",
      severity: "error",
      from: { path: "^language" },
      to: { path: "^(server|extension|tests)" },
    },
    {
      name: "hosts-share-below-the-command-line",
      severity: "error",
      // Two pages are made from the table of formats.
      from: { path: "^server/(?!cli/)", pathNot: "^server/docs/(formats|needs)-page[.]ts$" },
      to: { path: "^server/cli/" },
    },
    {
      name: "server-below-extension",
      severity: "error",
      from: { path: "^server" },
      to: { path: "^(extension|tests)" },
    },
    {
      name: "extension-knows-only-the-protocol",
      severity: "error",
      from: { path: "^extension" },
      to: { path: "^(shared|language|server/(?!lsp/protocol))" },
    },
    {
      name: "core-and-language-run-in-a-browser",
      severity: "error",
      from: { path: "^(shared|language)" },
      to: { dependencyTypes: ["core"] },
    },
    {
      name: "core-knows-its-own-libraries",
      severity: "error",
      from: { path: "^shared" },
      to: { path: "node_modules/", pathNot: `node_modules/(@types/)?(${CORE})/` },
    },
    {
      name: "language-has-no-editor",
      severity: "error",
      from: { path: "^language" },
      to: {
        path: "node_modules/",
        pathNot: `node_modules/(@types/)?(${CORE}|langium|chevrotain|@chevrotain/types)/`,
      },
    },
    {
      // Its lexer, its parser and its generator's output; not its language server.
      name: "one-folder-knows-langium",
      severity: "error",
      from: { path: "^(shared|language)", pathNot: "^language/syntax/" },
      to: { path: "node_modules/(langium|chevrotain|@chevrotain)/" },
    },
    {
      name: "langium-without-its-server",
      severity: "error",
      from: { path: "^language" },
      to: { path: "node_modules/langium/lib/(?!index\\.)" },
    },
    {
      name: "only-the-extension-knows-an-editor",
      severity: "error",
      from: { pathNot: "^extension/" },
      to: { path: "(^|/)vscode(/|$)" },
    },
    {
      name: "one-file-starts-programs",
      severity: "error",
      from: { pathNot: "^server/(git/run|cli/schema/generate)\\.ts$" },
      to: { path: "^(node:)?(child_process|cluster)$" },
    },
    {
      name: "no-other-machine",
      severity: "error",
      from: {},
      to: { path: "^(node:)?(net|tls|http|https|http2|dgram|dns)$" },
    },
    {
      name: "no-circles",
      severity: "error",
      from: {},
      to: { circular: true },
    },
  ],
  options: {
    doNotFollow: { path: "node_modules" },
    exclude: { path: "language/generated" },
    tsConfig: { fileName: "tsconfig.json" },
    tsPreCompilationDeps: true,
    enhancedResolveOptions: {
      exportsFields: ["exports"],
      conditionNames: ["import", "require", "node", "types"],
      extensions: [".ts", ".js", ".json"],
    },
  },
};
