/** An open session says after any edits what one says that begins with the edited text. */
import { mkdirSync, mkdtempSync, rmSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { dirname, join } from "node:path";
import fc from "fast-check";
import { afterAll, expect, test } from "vitest";
import { readSource } from "../../language/model/source-file.js";
import { slashed } from "../../server/files/slashed.js";
import { DesignSession } from "../../server/session/design-session.js";
import { loadProject } from "../../server/session/load.js";
import { areaDegOf, networkText } from "../bench/network/network.js";
import { OTHERS_STATEMENT, othersText } from "../bench/network/others.js";

const HOPS = 24;
const folder = slashed(mkdtempSync(join(tmpdir(), "hopwright-edits-")));
afterAll(() => rmSync(folder, { recursive: true, force: true }));

/** Declarations in their order, and whether each stands in the second file. */
interface Text {
  network: string;
  catalogue: string;
  sites: string[];
  hops: { name: string; text: string; second: boolean }[];
  gone: { name: string; text: string; second: boolean }[];
  register: string;
}

const GENERATED = networkText(HOPS, "../nowhere");
const CATALOGUE = [...GENERATED].flatMap(([path, text]) => (path.startsWith("catalogue/") ? [text] : []));

function begun(): Text {
  const blocks = (of: string, kind: string) =>
    [...GENERATED]
      .flatMap(([path, text]) => (path.startsWith(of) ? [text] : []))
      .join("\n")
      .split(new RegExp(`^(?=${kind} )`, "m"));
  return {
    network: GENERATED.get("network.hop")!.replace('  terrain "../nowhere"\n', ""),
    catalogue: CATALOGUE.join("\n"),
    sites: blocks("sites/", "site").map((text) => text.replace("\n}", "\n  ground 200 m\n}")),
    hops: blocks("hops/", "hop").map((text) => ({ name: text.split(" ")[1]!, text, second: false })),
    gone: [],
    register: othersText(2 * HOPS, areaDegOf(HOPS)),
  };
}

function filesOf({ network, catalogue, sites, hops, register }: Text): ReadonlyMap<string, string> {
  const hopsIn = (second: boolean) =>
    hops.flatMap((hop) => (hop.second === second ? [hop.text] : [])).join("\n");
  return new Map([
    ["network.hop", network],
    ["catalogue.hop", catalogue],
    ["others.hop", OTHERS_STATEMENT],
    ["sites.hop", sites.join("\n")],
    ["hops/one.hop", hopsIn(false)],
    ["hops/two.hop", hopsIn(true)],
    ["register.csv", register],
  ]);
}

const TERMS = [
  "",
  "aggregate 1 dB",
  "single 0.5 dB\n    toward-others -10 dB",
  "search-distance 20 km",
  "lapse 50 N/km",
];
const with_ = (text: string, line: string) => text.replace("\n", `\n  ${line}\n`);

/** What one edit does; the numbers choose among what there is. */
const EDITS: Readonly<Record<string, (text: Text, n: number, m: number) => void>> = {
  height: ({ hops }, n) => edit(hops, n, (hop) => hop.replace(/ at (\d+) m/, (_, m) => ` at ${+m + 3} m`)),
  power: ({ hops }, n) =>
    edit(hops, n, (hop) => hop.replace("\n    transmits ", "\n    power 15 dBm\n    transmits ")),
  channel: ({ hops }, n, m) => edit(hops, n, (hop) => hop.replace(/ \/ \d+\n/, ` / ${1 + (m % 4)}\n`)),
  polarization: ({ hops }, n, m) =>
    edit(hops, n, (hop) =>
      with_(hop.replace(/\n {2}polarization \w+/, ""), `polarization ${m % 2 ? "vertical" : "horizontal"}`),
    ),
  halves: ({ hops }, n) =>
    edit(hops, n, (hop) =>
      hop.replace(/transmits (high|low)/g, (_, half) => `transmits ${half === "high" ? "low" : "high"}`),
    ),
  accept: ({ hops }, n, m) =>
    edit(hops, n, (hop) =>
      with_(
        hop,
        `accept ${["others-harmed", "site-high-and-low", "interference-degradation"][m % 3]} "so agreed"`,
      ),
    ),
  objective: ({ hops }, n) =>
    edit(hops, n, (hop) => with_(hop.replace(/\n {2}objective \w+/, ""), "objective spare")),
  state: ({ hops }, n, m) =>
    edit(hops, n, (hop) => with_(hop.replace(/\n {2}state .*/, ""), `state ${m % 2 ? "planned" : "built"}`)),
  remove(text, n) {
    if (text.hops.length > 2) text.gone.push(...text.hops.splice(n % text.hops.length, 1));
  },
  again(text, n) {
    const hop = text.gone.pop();
    if (hop !== undefined) text.hops.splice(n % (text.hops.length + 1), 0, hop);
  },
  file({ hops }, n) {
    const hop = hops[n % hops.length]!;
    hop.second = !hop.second;
  },
  order({ hops }, n) {
    hops.push(...hops.splice(0, n % hops.length));
  },
  mast: ({ sites }, n, m) =>
    change(sites, n, (site) => site.replace(/tower \d+ m/, `tower ${[12, 65, 213][m % 3]} m`)),
  place: ({ sites }, n) =>
    change(sites, n, (site) =>
      site.replace(/(\d\d)"N/, (_, s) => `${String((+s + 7) % 60).padStart(2, "0")}"N`),
    ),
  site: ({ sites }, n) => change(sites, n, (site) => with_(site, 'accept antennas-overlap "as measured"')),
  terms(text, n) {
    const [before, after] = text.network.split(/^ {2}interference \{[^}]*\}\n/m);
    const stated =
      after === undefined ? before!.replace("  climate {", "\u0000  climate {") : `${before}\u0000${after}`;
    const terms = TERMS[n % TERMS.length]!;
    text.network = stated.replace("\u0000", terms === "" ? "" : `  interference {\n    ${terms}\n  }\n`);
  },
  policy(text, n) {
    const line = n % 2 === 0 ? "" : "policy { severity coupling-loss-missing warning }\n";
    text.network = `${text.network.replace(/^policy .*\n/m, "")}${line}`;
  },
  radio(text, n) {
    text.catalogue = text.catalogue.replace(/noise-figure [\d.]+ dB/, `noise-figure ${4 + (n % 3)} dB`);
  },
  register(text, n) {
    const rows = text.register.trimEnd().split("\n");
    rows.splice(1 + (n % (rows.length - 1)), 1);
    text.register = `${rows.join("\n")}\n`;
  },
};

type Hops = Text["hops"];

function edit(hops: Hops, n: number, how: (text: string) => string): void {
  const hop = hops[n % hops.length]!;
  hop.text = how(hop.text);
}

function change(texts: string[], n: number, how: (text: string) => string): void {
  texts[n % texts.length] = how(texts[n % texts.length]!);
}

/** All that is said of the design. */
async function said(session: DesignSession) {
  await session.update();
  session.updateNetwork();
  const hops = session.model.names("hop").map((name) => [name, session.result(name)?.findings] as const);
  const levels = session.model
    .names("hop")
    .map((name) =>
      session.interference
        .of(name)
        .map(({ receiver, degradationDb }) => [receiver.key, degradationDb.toFixed(3)]),
    );
  return { network: session.networkFindings(), hops, levels };
}

function write(files: ReadonlyMap<string, string>): void {
  for (const [path, text] of files) {
    mkdirSync(dirname(join(folder, path)), { recursive: true });
    writeFileSync(join(folder, path), text);
  }
}

const opened = () => {
  const { project } = loadProject(folder);
  return { project, session: new DesignSession(project.designs()[0]!, { today: "2026-06-01" }) };
};

const rounds = fc.array(
  fc.array(fc.tuple(fc.constantFrom(...Object.keys(EDITS)), fc.nat(1000), fc.nat(1000)), {
    minLength: 1,
    maxLength: 3,
  }),
  { minLength: 3, maxLength: 6 },
);

test("whatever is edited, moved, removed, accepted or stated", { timeout: 300_000 }, async () => {
  let changed = 0;
  await fc.assert(
    fc.asyncProperty(rounds, async (edited) => {
      const text = begun();
      let files = filesOf(text);
      write(files);
      const { project, session } = opened();
      let before = await said(session);
      for (const round of edited) {
        for (const [what, n, m] of round) EDITS[what]!(text, n, m);
        const now = filesOf(text);
        const others = [...now].filter(([path, content]) => files.get(path) !== content);
        write(new Map(others));
        files = now;
        project.setFiles(
          others
            .filter(([path]) => path.endsWith(".hop"))
            .map(([path, content]) => readSource(`${folder}/${path}`, content)),
        );
        await session.refreshGround(others.map(([path]) => `${folder}/${path}`));
        const after = await said(session);
        expect(after).toEqual(await said(opened().session));
        if (JSON.stringify(after) !== JSON.stringify(before)) changed++;
        before = after;
      }
    }),
    { numRuns: 25 },
  );
  expect(changed).toBeGreaterThan(40);
});
