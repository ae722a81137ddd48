/** Stations nearer to each other than 100 m: told, open where a criterion asks, judged by a stated coupling loss. */
import { describe, expect, test } from "vitest";
import { evaluateHop } from "../../shared/evaluate/hop.js";
import { fromHub } from "../../shared/rules/example-interference.js";
import { exampleHop } from "../../shared/rules/example-preamble.js";
import { judgeNetwork } from "../../shared/rules/judge-network.js";
import { designOf } from "../equipment/designs.js";
import { exampleGround } from "../rules/example-design.js";
import { interferenceIn } from "../support/interference.js";
import { readText } from "../support/listed.js";

const LIST = `others "o.csv" {
  latitude "lat"
  longitude "lon"
  frequency "f" in MHz
  bandwidth "b" in MHz
  eirp "p" in dBm
  receiver-latitude "rlat"
  receiver-longitude "rlon"
}`;
const HEAD = "lat,lon,f,b,p,rlat,rlon\n";

function judged(text: string, rows: string) {
  const design = designOf(`${LIST}\n${text}`);
  const results = new Map(
    [...design.hops.values()].map((hop) => [hop.name, evaluateHop(hop, exampleGround(hop))]),
  );
  const files = {
    others: new Map((design.others ?? []).map((list) => [list, readText(list, HEAD + rows)])),
    patterns: new Map(),
    logos: new Map(),
  };
  const interference = interferenceIn({ design, results, listed: files, day: "2026-06-01" });
  const findings = judgeNetwork(design, results, "2026-06-01", { files, interference });
  const told = findings
    .filter(({ rule }) => rule === "coupling-loss-missing")
    .map(({ severity, message, help, notJudged }) => ({ severity, message, help, notJudged }));
  return { design, interference, told, findings };
}

/** Where KELD stands, and what it hears and sends. */
function keld(text = exampleHop()): {
  readonly latitudeDeg: number;
  readonly longitudeDeg: number;
  readonly hearsMHz: number;
  readonly sendsMHz: number;
} {
  const hop = designOf(text).hops.get("KELD-TARN")!;
  const [own, far] = hop.ends;
  return {
    ...own.site.position!,
    hearsMHz: far.transmitFrequencyHz! / 1e6,
    sendsMHz: own.transmitFrequencyHz! / 1e6,
  };
}

const { latitudeDeg, longitudeDeg, hearsMHz, sendsMHz } = keld();
/** Degrees of latitude so many metres north. */
const north = (metres: number) => (latitudeDeg + metres / 111_200).toFixed(7);
const sender = (metres: number) => `${north(metres)},${longitudeDeg},${hearsMHz},55,50,47.9,-30.3\n`;
/** It listens beside KELD to what KELD sends. */
const receiver = (metres: number) => `47.9,-30.3,${sendsMHz},55,50,${north(metres)},${longitudeDeg}\n`;

describe("a transmitter of others beside a receiver", () => {
  test("is told from nearer than 100 m, and computed from there on", () => {
    expect(judged(exampleHop(), sender(95)).told).toEqual([
      {
        severity: "info",
        message:
          "KELD-TARN: what its receiver at KELD gets from others (line 2 of o.csv) within 100 m is not judged: no coupling loss is stated",
        help: "in site KELD, with what is measured: `coupling-loss-others KELD-TARN 60 dB`",
        notJudged: undefined,
      },
    ]);
    const { told, interference } = judged(exampleHop(), sender(105));
    expect(told).toEqual([]);
    expect(interference.of("KELD-TARN").some(({ entries }) => entries.length > 0)).toBe(true);
  });

  test("is one of three that are named by their lines, and further ones are counted", () => {
    const others = (count: number) => {
      const rows = Array.from({ length: count }, (_, metres) => sender(50 + metres)).join("");
      return /from (others \(.*\)) within/.exec(judged(exampleHop(), rows).told[0]!.message)?.[1];
    };
    expect(others(3)).toBe("others (line 2 of o.csv, line 3 of o.csv, line 4 of o.csv)");
    expect(others(5)).toBe("others (line 2 of o.csv, line 3 of o.csv, line 4 of o.csv and 2 more)");
  });

  test("keeps the criterion open where the network states one", () => {
    const [open, ...more] = judged(`interference { aggregate 3 dB }\n${exampleHop()}`, sender(50)).told;
    expect(more).toEqual([]);
    expect(open).toMatchObject({ severity: "error", notJudged: ["interference-degradation"] });
    const other = judged(`interference { toward-others -10 dB }\n${exampleHop()}`, sender(50)).told;
    expect(other.map(({ severity }) => severity)).toEqual(["info"]);
  });

  test("is judged by the coupling loss of the hop to others", () => {
    const text = `interference { aggregate 3 dB }\n${exampleHop()}`;
    const { told, interference } = judged(text, sender(50));
    expect(told).toHaveLength(1);
    expect(interference.of("KELD-TARN").flatMap(({ coLocated }) => coLocated)).toHaveLength(1);
    const stated = interferenceStated(text, sender(50), 70);
    expect(stated.told).toEqual([]);
    const [near] = stated.interference.of("KELD-TARN").flatMap(({ coLocated }) => coLocated);
    const weaker = interferenceStated(text, sender(50), 80)
      .interference.of("KELD-TARN")
      .flatMap(({ coLocated }) => coLocated)[0];
    expect(near!.toNoiseDb! - weaker!.toNoiseDb!).toBeCloseTo(10, 9);
  });
});

function interferenceStated(text: string, rows: string, lossDb: number) {
  // The sites of the examples stand before the text: the loss is put beside them as the language would.
  const design = designOf(`${LIST}\n${text}`);
  const interferenceAt = new Map([["KELD", { couplingLosses: [{ hops: ["KELD-TARN"] as const, lossDb }] }]]);
  const stated = { ...design, interferenceAt };
  const results = new Map(
    [...design.hops.values()].map((hop) => [hop.name, evaluateHop(hop, exampleGround(hop))]),
  );
  const files = {
    others: new Map((design.others ?? []).map((list) => [list, readText(list, HEAD + rows)])),
    patterns: new Map(),
    logos: new Map(),
  };
  const interference = interferenceIn({ design: stated, results, listed: files, day: "2026-06-01" });
  const findings = judgeNetwork(stated, results, "2026-06-01", { files, interference });
  return { interference, told: findings.filter(({ rule }) => rule === "coupling-loss-missing") };
}

test("of what raises a threshold the hops of the design are places to go to, and lines of a list are none", () => {
  const places = (text: string, ...rows: string[]) =>
    judged(text, rows.join(""))
      .findings.filter(({ rule, at }) => rule === "interference-degradation" && at.endsWith("/ KELD"))
      .map(({ message, related }) => [/MOSS-TARN|o\.csv/.exec(message)?.[0], related?.map(({ at }) => at)]);
  // Behind TARN, in KELD's beam and looking into it.
  const beyond = (n: number) => `47.56${n},-30.38,${hearsMHz},55,60,${latitudeDeg},${longitudeDeg}\n`;
  const own = fromHub({ channel: 4 });
  expect(places(own)).toEqual([["MOSS-TARN", ["hop MOSS-TARN / TARN"]]]);
  expect(places(exampleHop(), beyond(0))).toEqual([["o.csv", []]]);
  expect(places(own, beyond(0), beyond(1))).toEqual([["o.csv", ["hop MOSS-TARN / TARN"]]]);
});

test("a receiver of others beside a transmitter is told at the hop that sends, and open where others are protected", () => {
  const told = (criteria: string) => judged(`${criteria}\n${exampleHop()}`, receiver(40)).told;
  expect(told("")).toMatchObject([
    {
      severity: "info",
      message:
        "KELD-TARN: what receivers of others get from it at KELD, others (line 2 of o.csv), within 100 m is not judged: no coupling loss is stated",
    },
  ]);
  expect(told("interference { toward-others -10 dB }")).toMatchObject([
    { severity: "error", notJudged: ["others-harmed"] },
  ]);
  expect(
    interferenceStated(`interference { toward-others -10 dB }\n${exampleHop()}`, receiver(40), 90).told,
  ).toEqual([]);
});
