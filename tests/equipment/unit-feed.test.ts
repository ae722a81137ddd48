/** An all-outdoor unit on a fibre has a pair for direct current of its own, with a fuse. */
import { describe, expect, test } from "vitest";
import { sitePlans } from "../../shared/equipment/site-plan.js";
import { unlistedParts } from "../../shared/equipment/unlisted-parts.js";
import { siteWiring } from "../../shared/equipment/wiring/site-wiring.js";
import { unitBoxWords } from "../../shared/report/draw/system/chain/words.js";
import { EXAMPLE_ENTRIES } from "../../shared/rules/equipment/example-equipment.js";
import { chainsIn } from "../report/system/chains.js";
import { judgeExample } from "../rules/example-design.js";
import { designOf } from "./designs.js";
import { wiringFaults } from "./wiring-faults.js";

const text = (cable: "fibre" | "ethernet", site: string, arrangement = "all-outdoor 1+0") =>
  `${EXAMPLE_ENTRIES.join("\n")}
cable LINE { kind ${cable} }
radio R18O like R18 { construction all-outdoor; draws 45 W; port GE }
site MOSS {
  at 47.48 -30.48
  chassis COPSE { slot 1 EMBER; slot 3 BRACKEN }
  ${site}
}
hop MOSS-TARN {
  radio R18O
  arrangement ${arrangement}
  MOSS { antenna DISH60-18 at 30 m; coupler H18-U direct; cable LINE length 50 m }
  TARN { antenna DISH60-18 at 30 m; coupler H18-U direct }
}`;

function fuses(design: string): string[] {
  const wiring = siteWiring(sitePlans(designOf(design)).get("MOSS")!);
  expect(wiringFaults(wiring)).toEqual([]);
  return wiring.joints.flatMap(({ by, ends: [from, to], proposed = false }) =>
    by.kind === "fuse" ? [`${from.port} - ${to.part}${proposed ? ", proposed" : ""}`] : [],
  );
}

const OWN = "A 1 - card 1/1, proposed";

test("on a fibre it has a fuse, over copper the port powers it", () => {
  expect(fuses(text("fibre", ""))).toEqual([OWN, "A 2 - unit MOSS-TARN only, proposed"]);
  expect(fuses(text("ethernet", ""))).toEqual([OWN]);
});

test("main and standby hang on both feeds, and a stated line is that of the first", () => {
  const pair = "all-outdoor 1+1 hot-standby";
  expect(fuses(text("fibre", "", pair)).slice(1)).toEqual([
    "A 2 - unit MOSS-TARN main, proposed",
    "B 1 - unit MOSS-TARN standby, proposed",
  ]);
  expect(fuses(text("fibre", "feed B fuse 7 rated 6 A to MOSS-TARN", pair)).slice(1)).toEqual([
    "B 7 - unit MOSS-TARN main",
    "B 1 - unit MOSS-TARN standby, proposed",
  ]);
});

describe("a stated feed of a unit is judged", () => {
  const told = (cable: "fibre" | "ethernet", site: string) =>
    judgeExample(text(cable, site))
      .findings.filter(({ rule }) => rule === "feed-slot")
      .map(({ message }) => message);

  test.each([
    ["feed A fuse 3 rated 6 A to MOSS-TARN", []],
    // 45 W at 40.5 V are 1.11 A.
    [
      "feed A fuse 3 rated 1 A to MOSS-TARN",
      ["fuse 3 of feed A at MOSS is rated 1 A; a unit of MOSS-TARN draws 1.1 A at 40.5 V"],
    ],
    [
      "feed A fuse 3 to MOSS-TARN\n feed B fuse 3 to MOSS-TARN",
      ["hop MOSS-TARN has no further unit at MOSS that a feed could go to"],
    ],
    ["feed A fuse 3 slot 1\n feed A fuse 3 to MOSS-TARN", ["fuse 3 of feed A at MOSS feeds two things"]],
  ])("%s", (site, messages) => {
    expect(told("fibre", site)).toEqual(messages);
  });

  test("over copper none is taken", () => {
    expect(told("ethernet", "feed A fuse 3 to MOSS-TARN")).toEqual([
      "no unit of MOSS-TARN at MOSS has a feed of its own: that is for all-outdoor units on a fibre",
    ]);
  });
});

test("its pair stands in the chain and in what the parts list leaves out; without a chassis its traffic is handed over", () => {
  const design = designOf(text("fibre", "feed B fuse 7 rated 6 A to MOSS-TARN"));
  const [chain] = chainsIn(design);
  const words = chain!.chain.ends[0].lines.flatMap((line) =>
    line.steps.flatMap((step) =>
      step.kind === "part" && step.part.kind === "unit" ? unitBoxWords(line, step.part) : [],
    ),
  );
  expect(words.map(({ text: said }) => said)).toContain("-48 V: feed B, fuse 7 of 6 A");
  expect(unlistedParts(design)).toContain(
    "Not in it: -48 V pairs where an all-outdoor unit on a fibre has one of its own (MOSS-TARN at MOSS).",
  );
  const bare = designOf(text("fibre", "").replace(/ {2}chassis COPSE.*\n/, ""));
  expect(siteWiring(sitePlans(bare).get("MOSS")!).loose.map(({ lacks }) => lacks)).toEqual(["handed over"]);
});
