/** What the results say of an objective, and what the findings say, is the same. */
import fc from "fast-check";
import { expect, test } from "vitest";
import { DesignModel } from "../../language/model/design-model.js";
import { readSource } from "../../language/model/source-file.js";
import { evaluateHop } from "../../shared/evaluate/hop.js";
import type { GroundInput } from "../../shared/evaluate/path/ground.js";
import { EXAMPLE_PREAMBLE } from "../../shared/rules/example-preamble.js";
import { RULES } from "../../shared/rules/index.js";
import { judgeHop } from "../../shared/rules/judge.js";
import { groundOf, NO_GROUND } from "../evaluate/builders.js";
import { disagreements } from "./verdicts.js";

const TODAY = "2026-06-01";

/** A line, or none. */
const line = (...lines: readonly string[]) => fc.constantFrom("", ...lines);
/** Mostly the first. */
const mostly = (usual: string, ...others: readonly string[]) =>
  fc.oneof(
    { weight: 15, arbitrary: fc.constant(usual) },
    { weight: 1, arbitrary: fc.constantFrom(...others) },
  );
const block = (head: string, lines: readonly string[]) =>
  `${head} {\n${lines
    .filter((one) => one !== "")
    .map((one) => `  ${one}\n`)
    .join("")}}\n`;

const OBJECTIVE = fc.tuple(
  line("availability 99 %", "availability 99.9 %", "availability 99.99 %", "availability 99.9995 %"),
  line("capacity 50 Mbit/s", "capacity 300 Mbit/s", "capacity 2 Gbit/s"),
  line("margin 0 dB", "margin 20 dB", "margin 60 dB"),
  line("clearance 0.6 F1 at k 1.33", "clearance 1 F1 at k 1.33", "clearance 3 F1 at k 1.33"),
  mostly("", "clearance 0.6 F1 at k 0.5"),
  line("diversity-clearance 0.3 F1 at k 1.33"),
  line("standby-margin 10 dB", "standby-margin 40 dB"),
  line(
    "availability-class access",
    "availability-class access over 90 km propagation 50 %",
    "availability-class long-haul over 2 km propagation 50 %",
  ),
  line("quality access", "quality intermediate over 2500 km block-ratio 0.01"),
);

const CLIMATE = fc.tuple(
  mostly("rain 34 mm/h", "", "rain 60 mm/h at 0.1 %", "rain 4 mm/h"),
  mostly("logK -4.2", ""),
  mostly("dN75 12 N-units", ""),
  mostly("", "multipath current", "multipath preceding", "multipath quick"),
  mostly("", "unchecked-methods leave-out"),
);

const RULE_IDS = [...RULES.keys()];
const rule = fc.oneof(
  fc.constantFrom(...RULE_IDS),
  fc.constantFrom(
    "clearance",
    "availability",
    "fade-margin",
    "level-below-threshold",
    "standby-level",
    "capacity",
    "clearance",
    "level-below-threshold",
    "path-length",
    "frequency-outside-tuning",
    "not-judged",
    "survey-unusable",
  ),
);
const accepts = fc.array(
  fc
    .tuple(rule, line("until 2027-01-01", "until 2020-01-01"))
    .map(([id, until]) => `accept ${id} ${until} because "so it is"`),
  { maxLength: 3 },
);
const policy = fc.array(
  fc.oneof(
    fc.tuple(rule, fc.constantFrom("error", "warning", "info")).map(([id, as]) => `severity ${id} ${as}`),
    rule.map((id) => `required ${id}`),
  ),
  { maxLength: 4 },
);

const end = (site: string, half: string, branches: string) =>
  fc
    .tuple(
      mostly(
        "antenna DISH60-18 at 40 m",
        "",
        "antenna DISH60-18",
        "height 40 m",
        "antenna DISH60-18 at 5 m",
        "antenna BARE at 40 m",
        "antenna DISH120-7 at 40 m",
      ),
      mostly(
        branches,
        "",
        "coupler NONE",
        "coupler H7-E direct",
        "diversity-antenna DISH60-18 at 12 m",
        "second-antenna DISH60-18 at 6 m",
      ),
      mostly(`transmits ${half}`, "", "transmits high", "transmits 25 GHz"),
      mostly("", "power 18 dBm", "power 30 dBm"),
      mostly("", "extra-loss 12 dB", "extra-loss 35 dB"),
      mostly("", "feeder GUIDE length 3 m"),
    )
    .map((lines) => block(site, lines));

/** With what an end of it usually has; of ends that are built differently what TARN has behind it. */
const ARRANGED = fc.constantFrom<readonly string[]>(
  ["", ""],
  ["arrangement 1+1 hot-standby", "coupler H18-U direct"],
  ["arrangement 1+1 space-diversity", "diversity-antenna DISH60-18 at 28 m"],
  ["arrangement 2+0 xpic", "coupler O18 direct"],
  ["arrangement 1+1 hot-standby two-antennas", "second-antenna DISH60-18 at 28 m"],
  ["arrangement 2+0 single-polarization two-antennas", "second-antenna DISH60-18 at 28 m"],
  ["", "arrangement 1+1 hot-standby\n    coupler H18-U direct", ""],
  ["arrangement 1+1 hot-standby", "arrangement 1+0", "coupler H18-U direct"],
  ["", "arrangement 1+1 space-diversity\n    diversity-antenna DISH60-18 at 28 m", ""],
  [
    "",
    "arrangement 1+1 space-diversity\n    diversity-antenna DISH60-18 at 28 m",
    "arrangement 1+1 hot-standby two-antennas\n    second-antenna DISH60-18 at 28 m",
  ],
  ["", "arrangement 2+0 xpic\n    coupler O18 direct", ""],
);

const HOP = ARRANGED.chain(([arrangement, branches, others = branches]) =>
  fc
    .tuple(
      fc.constantFrom("objective own", "objective own", "objective own", "", "objective idle"),
      mostly("channel P18 / 55 MHz / 4", ""),
      mostly("polarization vertical", ""),
      mostly("radio R18", "", "radio R18X"),
      mostly("mode 55 MHz 128QAM", "", "modes 55 MHz QPSK to 128QAM"),
      fc.constant(arrangement!),
      mostly("", "degradation 5 dB", "repair-time 6 h"),
      mostly("", 'survey "none.csv" from KELD'),
      mostly("", 'obstacle "crane" 70 m at 3 km from KELD', 'obstacle "crane" 70 m at 200 km from KELD'),
      accepts.map((lines) => lines.join("\n  ")),
      end("KELD", "high", branches!),
      end("TARN", "low", others!),
    )
    .map((lines) => block("hop KELD-TARN", lines)),
);

const site = (name: string, at: string, ...others: readonly string[]) =>
  fc
    .tuple(mostly(at, "", ...others), mostly("ground 200 m", ""))
    .map((lines) => block(`site ${name}`, lines));

const DESIGN = fc
  .record({
    climate: CLIMATE,
    own: OBJECTIVE,
    byDefault: OBJECTIVE,
    defaults: fc.tuple(line("objective usual"), line("radio R18"), line("polarization vertical")),
    policy,
    keld: site("KELD", "at 47.5 -30.5"),
    tarn: site("TARN", "at 47.55 -30.4", "at 47.5 -30.5", "at 49.9 -27.1", "at 47.5 30.5"),
    hop: HOP,
  })
  .map(({ climate, own, byDefault, defaults, policy: agreed, keld, tarn, hop }) =>
    [
      // The preamble's equipment, without its network.
      EXAMPLE_PREAMBLE.slice(EXAMPLE_PREAMBLE.indexOf("radio R18")),
      "radio R18X like R18 {\n  mtbf 50 y\n  mode 55 MHz QPSK rate 78 Mbit/s power 24 dBm\n  mode 55 MHz 128QAM power 20 dBm threshold -69 dBm\n}\n",
      "antenna BARE {\n  band 17.7 GHz to 19.7 GHz\n}\n\ncoupler NONE {\n  kind hybrid\n}\n\nfeeder GUIDE {\n  loss 0.2 dB/m\n}\n",
      block('network "Truth"', [
        block("climate", climate),
        block("objective own", own),
        block("objective usual", byDefault),
        "objective idle {\n}",
        block("defaults hop", defaults),
        ...agreed,
      ]),
      keld,
      tarn,
      hop,
    ].join("\n"),
  );

const profile = (heightAt: (index: number) => number | null) => (lengthM: number) =>
  groundOf(
    Array.from({ length: 101 }, (_, index) => heightAt(index)),
    lengthM,
  );
const inVoid = (index: number) => index > 30 && index < 40;

/** Level ground, a hill, voids, or nothing. */
const GROUND = fc.constantFrom<(lengthM: number) => GroundInput>(
  ...Array.from({ length: 6 }, () => profile(() => 200)),
  profile((index) => (index === 50 ? 228 : 200)),
  profile((index) => (index === 50 ? 300 : 200)),
  profile((index) => (inVoid(index) ? null : 200)),
  profile((index) => (inVoid(index) ? null : index === 50 ? 300 : 200)),
  profile((index) => (index > 90 ? null : 200)),
  profile(() => null),
  () => NO_GROUND,
);

/** The hop of the text, and what it is evaluated over. */
function read(text: string, groundFor: (lengthM: number) => GroundInput) {
  const model = new DesignModel("/truth");
  model.setFile(readSource("/truth/truth.hop", text));
  const problems = model.problemsOf("/truth/truth.hop").filter(({ rule: id }) => id !== "doubled-fact");
  expect(problems.map(({ message }) => message)).toEqual([]);
  const hop = model.hop("KELD-TARN")!.hop!;
  const lengthM = evaluateHop(hop, NO_GROUND).distanceM ?? 9000;
  const ground: GroundInput =
    hop.surveyFile === undefined
      ? groundFor(lengthM)
      : { ...NO_GROUND, profileKind: "survey", problem: "it is not there" };
  return { hop, ground };
}

test("an objective that is missed or open is an error there, or accepted, whatever a design agrees on", () => {
  fc.assert(
    fc.property(
      DESIGN,
      GROUND,
      fc.array(fc.boolean(), { minLength: 8, maxLength: 8 }),
      (text, groundFor, excused) => {
        const { hop, ground } = read(text, groundFor);
        const result = evaluateHop(hop, ground);
        const findings = judgeHop(hop, result, TODAY);
        expect(disagreements(hop, result, findings)).toEqual([]);
        // The same with some of what was found accepted: what it kept quiet shows.
        const found = [...new Set(findings.map(({ rule: id }) => id))].filter((_, index) => excused[index]);
        const accepting = { ...hop, accepts: found.map((id) => ({ rule: id, reason: "so it is" })) };
        expect(disagreements(accepting, result, judgeHop(accepting, result, TODAY))).toEqual([]);
      },
    ),
    { numRuns: 800 },
  );
});
