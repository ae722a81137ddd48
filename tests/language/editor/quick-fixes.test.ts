import { describe, expect, test } from "vitest";
import { findingFixes, textFixes } from "../../../language/editor/quick-fixes.js";
import { applyEdits } from "../../../language/editor/text-range.js";
import { equipped } from "../../../shared/rules/equipment/example-equipment.js";
import { fixture } from "../../support/fixture.js";
import { fixesOf, modelOf, titles, withHop } from "./fixing.js";
import { HOP, judge, PREAMBLE } from "./judged.js";

describe("fixes of the text", () => {
  test("come from the problem, where it stands", () => {
    const { model, file } = fixture("site A { gruond 4 m }\nsite B { ground 4 }");
    const text = model.file(file)!.text;
    const at = (word: string) => ({ start: text.indexOf(word), end: text.indexOf(word) + word.length });
    const [fix] = textFixes(model, file, at("gruond"));
    expect(fix?.title).toBe("Write ground");
    expect(fix?.changesDecision).toBe(false);
    expect(applyEdits(text, fix!.edits)).toContain("site A { ground 4 m }");
    expect(titles(textFixes(model, file, at("site B")))).toEqual([]);
  });
});

describe("clearance", () => {
  const low = withHop((hop) => hop.replaceAll("at 40 m", "at 12 m"));

  test("raises either antenna to the height needed, the smaller raise first, and accepting comes last", async () => {
    const { fixes, applied } = await fixesOf(low, "clearance");
    expect(titles(fixes)).toEqual([
      expect.stringMatching(/^Raise the antenna at (KELD|TARN) to [\d.]+ m \(changes its height\)$/),
      expect.stringMatching(/^Raise the antenna at (KELD|TARN) to [\d.]+ m \(changes its height\)$/),
      expect.stringMatching(/^Accept clearance on KELD-TARN/),
    ]);
    for (const fix of fixes) expect(fix.changesDecision).toBe(true);
    expect(applied(fixes[0]!).match(/at 12 m/g)).toHaveLength(1);
  });

  test("a diversity antenna is raised by itself, and lowered to its structure", async () => {
    const diverse = (at: number) =>
      withHop((hop) =>
        hop
          .replace("radio R18", "arrangement 1+1 space-diversity\n  radio R18")
          .replace("at 40 m", `at 30 m\n    diversity-antenna DISH60-18 at ${at} m`)
          .replace("at 40 m", "at 20 m"),
      );
    for (const [rule, at, verb] of [
      ["diversity-clearance", 3, "Raise"],
      ["antenna-above-structure", 90, "Lower"],
    ] as const) {
      const { fixes, applied } = await fixesOf(diverse(at), rule);
      expect(titles(fixes)[0]).toMatch(new RegExp(`^${verb} the diversity antenna at KELD to [\\d.]+ m`));
      const text = applied(fixes[0]!);
      expect(text).toContain("antenna DISH60-18 at 30 m\n");
      expect(text).not.toContain(`diversity-antenna DISH60-18 at ${at} m`);
    }
  });

  test("the height that is written is the least: a tenth less does not do", async () => {
    const { fixes, applied } = await fixesOf(low, "clearance");
    const text = applied(fixes[0]!);
    const written = /antenna DISH60-18 at ([\d.]+) m/.exec(text.replace("at 12 m", ""))![1]!;
    const less = (Number(written) - 0.1).toFixed(1);
    const open = (one: string) => judge(modelOf(one)).findings.some(({ rule }) => rule === "clearance");
    expect(open(text)).toBe(false);
    expect(open(text.replace(`at ${written} m`, `at ${less} m`))).toBe(true);
  });

  test("keeps the unit that is written", async () => {
    const feet = withHop((hop) => hop.replaceAll("at 40 m", "at 39 ft"));
    expect(titles((await fixesOf(feet, "clearance")).fixes)[0]).toMatch(/ to [\d.]+ ft /);
  });

  test("states a height of its own where it came from the defaults", async () => {
    const text = `${PREAMBLE}\ndefaults end { antenna DISH60-18 at 12 m }\n${HOP.replaceAll("    antenna DISH60-18 at 40 m\n", "")}`;
    const { fixes, applied } = await fixesOf(text, "clearance");
    expect(applied(fixes[0]!)).toMatch(/ {2}(KELD|TARN) \{\n {4}height [\d.]+ m\n {4}transmits/);
  });

  test("is not offered above the structure: the new error would take its place", async () => {
    const text = low.replaceAll("structure mast 60 m", "structure mast 13 m");
    expect(titles((await fixesOf(text, "clearance")).fixes)).toEqual([expect.stringMatching(/^Accept/)]);
  });
});

test("both ends in one half: turns one", async () => {
  const { fixes, applied } = await fixesOf(
    withHop((hop) => hop.replace("transmits low", "transmits high")),
    "both-ends-same-half",
  );
  expect(titles(fixes).slice(0, 2)).toEqual([
    "Let TARN transmit low (changes the half of this end)",
    "Let KELD transmit low (changes the half of this end)",
  ]);
  expect(applied(fixes[0]!)).toContain("TARN {\n    antenna DISH60-18 at 40 m\n    transmits low\n  }");
});

test("a coupler that is missing is added where the canonical order has it", async () => {
  const text = withHop((hop) =>
    hop
      .replace("radio R18", "radio R18\n  arrangement 1+1 hot-standby")
      .replace("    transmits high", "    coupler H18-U direct\n    transmits high"),
  );
  const { fixes, applied } = await fixesOf(text, "coupler-missing");
  expect(titles(fixes)).toContain("Add coupler H18-U at TARN (changes the equipment)");
  expect(titles(fixes).join()).not.toContain("H7-E");
  const added = fixes.find(({ title }) => title.includes("H18-U"))!;
  expect(applied(added)).toContain("    antenna DISH60-18 at 40 m\n    coupler H18-U\n    transmits low");
});

test("too little margin: a larger antenna of the catalogue, the smallest that does", async () => {
  const larger =
    "antenna DISH120-18 { band 17.7 GHz to 19.7 GHz; diameter 1.2 m; gain 44.5 dBi }\nantenna DISH90-18 { band 17.7 GHz to 19.7 GHz; diameter 0.9 m; gain 42 dBi }\n";
  const text = (
    larger + withHop((hop) => hop.replace("    transmits high", "    transmits high\n    extra-loss 18 dB"))
  ).replace("    availability 99.99 %\n", "");
  const offered = async (lossDb: number) => {
    const { fixes, applied } = await fixesOf(text.replace("18 dB", `${lossDb} dB`), "fade-margin");
    const taking = fixes.filter(({ title }) => title.startsWith("Take"));
    return { titles: titles(taking), texts: taking.map(applied) };
  };
  // At one end, at both, and the smaller of them in either place.
  expect((await offered(24)).titles).toEqual([]);
  expect((await offered(18)).titles).toEqual([
    "Take antenna DISH120-18 at KELD and TARN (changes the equipment)",
  ]);
  expect((await offered(11)).titles).toEqual(["Take antenna DISH90-18 at KELD (changes the equipment)"]);
  const { titles: both, texts } = await offered(13);
  expect(both).toEqual([
    "Take antenna DISH120-18 at KELD (changes the equipment)",
    "Take antenna DISH90-18 at KELD and TARN (changes the equipment)",
  ]);
  expect(texts[1]!.match(/antenna DISH90-18 at 40 m/g)).toHaveLength(2);
});

test("an antenna that cannot bear its unit comes with a waveguide, or not at all", async () => {
  const large =
    "antenna DISH240-18 { band 17.7 GHz to 19.7 GHz; diameter 2.4 m; gain 50.5 dBi; direct-mounting no }\n";
  const guide = "feeder FLEX-18 { kind flexible; band 17.7 GHz to 19.7 GHz; loss 1.1 dB/m at 18.7 GHz }\n";
  const foreign = withHop((hop) => hop.replace("DISH60-18 at 40 m", "DISH120-7 at 40 m"));
  const taken = async (text: string) => {
    const { fixes, applied } = await fixesOf(text, "antenna-out-of-band");
    return fixes.filter(({ title }) => title.includes("DISH240-18")).map((fix) => [fix.title, applied(fix)]);
  };
  expect(await taken(large + foreign)).toEqual([]);
  const [[title, text] = []] = await taken(large + guide + foreign);
  expect(title).toMatch(/^Take antenna DISH240-18 with waveguide FLEX-18, 0\.9 m, at KELD \(changes/);
  expect(text).toMatch(/antenna DISH240-18 at 40 m[^}]*\n {4}feeder FLEX-18 length 0\.9 m\n/);
});

describe("what cannot be built", () => {
  test("a mode is narrowed to the widest that its channel holds; from the defaults it becomes a line of its own", async () => {
    const radio = `radio R18W like R18 {
  mode 27.5 MHz 128QAM rate 150 Mbit/s power 20 dBm threshold -72 dBm
  mode 55 MHz 128QAM rate 310 Mbit/s power 20 dBm threshold -69 dBm
  mode 56.6 MHz 128QAM rate 315 Mbit/s power 20 dBm threshold -69 dBm
  mode 112 MHz 128QAM rate 620 Mbit/s power 20 dBm threshold -66 dBm
}
`;
    const wide = (hop: string) =>
      hop.replace("radio R18", "radio R18W").replace("  mode 55 MHz 128QAM\n", "");
    const own = withHop((hop) => radio + wide(hop).replace("R18W\n", "R18W\n  mode 112 MHz 128QAM\n"));
    const { fixes, applied } = await fixesOf(own, "mode-width");
    // 56.6 MHz are 2.9 % more than 55 MHz.
    expect(titles(fixes).slice(0, 2)).toEqual(["Take the mode of 56.6 MHz", "Take the mode of 55 MHz"]);
    expect(applied(fixes[0]!)).toContain("  mode 56.6 MHz 128QAM\n");
    const defaults = `defaults hop { mode 112 MHz 128QAM }\n${withHop((hop) => radio + wide(hop))}`;
    const inherited = await fixesOf(defaults, "mode-width");
    expect(inherited.applied(inherited.fixes[1]!)).toMatch(/radio R18W\n {2}mode 55 MHz 128QAM\n/);
  });

  test("a line is lengthened up to the antenna, a long piece shortened, a contradiction parted", async () => {
    const feeders = `feeder FLEX-18 { kind flexible; band 17.7 GHz to 19.7 GHz; loss 1.1 dB/m at 18.7 GHz }
feeder ELL-18 { kind elliptical; loss 19 dB/100m at 17.7 GHz; loss 20 dB/100m at 19.7 GHz }
radio R18-IN like R18 { construction all-indoor }
`;
    const indoors = (line: string) =>
      withHop(
        (hop) =>
          feeders +
          hop
            .replace("radio R18", "arrangement all-indoor 1+0\n  radio R18-IN")
            .replaceAll("at 40 m", `at 39.5 m${line}`),
      );
    const short = await fixesOf(indoors("\n    feeder ELL-18 length 4 m"), "feeder-too-short");
    expect(short.applied(short.fixes[0]!)).toContain("feeder ELL-18 length 40 m");
    const none = await fixesOf(indoors(""), "waveguide-missing");
    expect(titles(none.fixes)[0]).toBe(
      "Add waveguide ELL-18, 40 m, at KELD (as the antenna is high; changes the equipment)",
    );
    const at = (lines: string) => withHop((hop) => feeders + hop.replace("at 40 m", `at 40 m${lines}`));
    const long = await fixesOf(at("\n    feeder FLEX-18 length 12 ft"), "flexible-guide-long");
    expect(long.applied(long.fixes[0]!)).toContain("feeder FLEX-18 length 0.9 m");
    const both = await fixesOf(
      at("\n    mounting direct\n    feeder FLEX-18 length 0.9 m"),
      "direct-with-feeder",
    );
    expect(titles(both.fixes).slice(0, 2)).toEqual([
      "Mount separately from the antenna at KELD",
      "Remove the feeder at KELD (changes the equipment)",
    ]);
    expect(both.applied(both.fixes[0]!)).toContain("mounting separate\n    feeder");
    expect(both.applied(both.fixes[1]!)).not.toContain("feeder FLEX-18 length");
  });

  test("a structure is stated as high as its antenna, either polarization for the first carrier", async () => {
    const high = withHop((hop) => hop.replace("at 40 m", "at 130.5 m")).replace(
      "site KELD {\n  at 47.5 -30.5\n  structure mast 60 m\n",
      "site KELD {\n  at 47.5 -30.5\n",
    );
    const { fixes, applied } = await fixesOf(high, "antenna-without-structure");
    expect(applied(fixes[0]!)).toMatch(/site KELD \{\n {2}at 47\.5 -30\.5\n {2}structure mast 131 m\n/);
    const dual = withHop((hop) =>
      hop
        .replace("polarization vertical", "arrangement 2+0 xpic")
        .replaceAll("at 40 m", "at 40 m\n    coupler O18 direct"),
    );
    const open = await fixesOf(dual, "polarization-open");
    expect(titles(open.fixes).slice(0, 2)).toEqual([
      "State polarization vertical for the first carrier",
      "State polarization horizontal for the first carrier",
    ]);
  });
});

test("a misspelt rule is written as it was meant", async () => {
  const accepting = withHop((hop) => hop.replace(/}\n$/, '  accept clearence because "x"\n}\n'));
  const accepted = await fixesOf(accepting, "acceptance-unknown");
  expect(titles(accepted.fixes)[0]).toBe("Write clearance");
  expect(accepted.applied(accepted.fixes[0]!)).toContain("accept clearance because");
  const agreed = await fixesOf(`severity fade-margins error\n${withHop((hop) => hop)}`, "policy-unknown");
  expect(agreed.applied(agreed.fixes[0]!)).toContain("severity fade-margin error");
});

test("an acceptance of nothing is removed with its line", async () => {
  const line = '  accept overload because "x" // why\n';
  const { fixes, applied } = await fixesOf(
    withHop((hop) => hop.replace("  KELD {", `${line}  KELD {`)),
    "acceptance-unused",
  );
  expect(fixes).toHaveLength(1);
  expect(applied(fixes[0]!)).toBe(withHop((hop) => hop));
});

test("a finding about a site alone is accepted at the site", async () => {
  const hedge = "chassis HEDGE { height 3 U; slot 1 controller; slot 12 controller }\n";
  const text = `${hedge}${PREAMBLE}\n${HOP}`.replace(
    "site KELD {",
    "site KELD {\n  rack 1 U\n  chassis HEDGE",
  );
  const { fixes, applied } = await fixesOf(text, "rack-full");
  expect(titles(fixes)).toEqual(["Accept rack-full at KELD (it stays in every report; write the reason)"]);
  expect(applied(fixes[0]!)).toMatch(
    /site KELD \{[^}]*\n {2}accept rack-full because "reason to be written"\n/,
  );
});

describe("equipment", () => {
  const FEEDERS =
    "feeder FLEX-18 { kind flexible; guide R220; loss 1 dB/m at 18.7 GHz }\nfeeder FLEX-6 { kind flexible; guide R70 }\n";
  const mounted = (antenna: string, mounting: string) =>
    FEEDERS +
    withHop((hop) =>
      hop.replace("DISH60-18 at 40 m", `${antenna} at 40 m\n    mounting ${mounting}`),
    ).replace("hop KELD-TARN", "antenna DISH240-18 like DISH60-18 { diameter 2.4 m }\n\nhop KELD-TARN");

  test("a separate mounting gets the waveguide of its band, or none any more", async () => {
    const { fixes, applied } = await fixesOf(mounted("DISH60-18", "separate"), "waveguide-missing");
    expect(titles(fixes).slice(0, 2)).toEqual([
      "Add waveguide FLEX-18, 0.9 m, at KELD (changes the equipment)",
      "Mount directly on the antenna at KELD",
    ]);
    expect(applied(fixes[0]!)).toMatch(/KELD \{[^}]*feeder FLEX-18 length 0\.9 m/);
    // A large antenna takes nothing on its back: the second would only bring another error.
    expect(
      titles((await fixesOf(mounted("DISH240-18", "separate"), "waveguide-missing")).fixes),
    ).not.toContain("Mount directly on the antenna at KELD");
  });

  test("a large antenna is mounted separately, with the waveguide at once", async () => {
    const { fixes, applied } = await fixesOf(mounted("DISH240-18", "direct"), "direct-mounting");
    expect(titles(fixes)[0]).toBe("Mount separately from the antenna at KELD, with waveguide FLEX-18, 0.9 m");
    expect(applied(fixes[0]!)).toMatch(/KELD \{[^}]*feeder FLEX-18 length 0\.9 m[^}]*mounting separate/);
  });

  test("a card in a wrong slot goes into the first free one that takes it", async () => {
    const { fixes, applied } = await fixesOf(
      `${PREAMBLE}\n${equipped("chassis HEDGE {\n  slot 6 MIST\n  slot 2 FERN\n  slot 1 HEATH\n}")}`,
      "slot-wrong-kind",
    );
    expect(titles(fixes)[0]).toBe("Put MIST into slot 3");
    expect(applied(fixes[0]!)).toContain("slot 3 MIST");
  });

  test("a missing controller is one more of the same", async () => {
    const text = (lines: string) =>
      `${PREAMBLE}\n${equipped(`chassis HEDGE {\n  protect controller\n${lines}\n}`)}`;
    const loose = await fixesOf(text("  card HEATH\n  card MIST"), "controller-protection");
    expect(loose.applied(loose.fixes[0]!)).toContain("card HEATH 2");
    const placed = await fixesOf(text("  slot 12 HEATH\n  card MIST"), "controller-protection");
    expect(placed.applied(placed.fixes[0]!)).toMatch(/card MIST\n\s*card HEATH\n/);
  });

  test("as many IF cards as the ports that are missing, of the kind that is there", async () => {
    const four = equipped("chassis COPSE {\n  card MIST\n}", {
      hop: "polarization vertical\n  radio R18\n  mode 55 MHz 128QAM\n  arrangement 1+1 hot-standby",
      keld: "antenna DISH60-18 at 40 m\n    coupler H18-U direct\n    transmits high",
      tarn: "antenna DISH60-18 at 40 m\n    coupler H18-U direct\n    transmits low",
    });
    const { fixes, applied } = await fixesOf(`${PREAMBLE}\n${four}`, "if-ports-short");
    expect(titles(fixes)[0]).toBe("Add card MIST (changes the equipment)");
    expect(applied(fixes[0]!)).toContain("card MIST 2");
  });

  test("a placement that was found by trying is written down, behind what is stated", async () => {
    const three = (lines: string) =>
      `antenna DISH60-18-VH like DISH60-18 { polarizations dual }\n${PREAMBLE}\n${equipped(
        "chassis SPINNEY as LOW {\n  slot 5 MIST-LINK\n  slot 6 MIST-LINK\n}\nchassis COPSE as TOP {\n  slot 3 MIST\n}",
        {
          hop: "polarization vertical\n  radio R18\n  mode 55 MHz 128QAM\n  arrangement 3+0 xpic",
          keld: `antenna DISH60-18-VH at 40 m\n    transmits high${lines}`,
        },
      )}`;
    const open = await fixesOf(three(""), "if-ports-searched");
    expect(titles(open.fixes)).toEqual(["Write the IF ports at MOSS down (in one hop)"]);
    expect(open.applied(open.fixes[0]!)).toContain(
      "    transmits high\n    if-port 5 / 1\n    if-port 6 / 1\n    if-port 3 / 1 in TOP\n",
    );
    // A second chassis without a name is called by its number; what is stated stays in front.
    const begun = three("\n    if-port 6 / 1").replace(" as LOW", "").replace(" as TOP", "");
    const rest = await fixesOf(begun, "if-ports-searched");
    expect(rest.applied(rest.fixes[0]!)).toContain(
      "    if-port 6 / 1\n    if-port 5 / 1\n    if-port 3 / 1 in 2\n",
    );
    const { findings } = judge(modelOf(rest.applied(rest.fixes[0]!)));
    expect(findings.filter(({ rule }) => /^(if-port|xpic)/.test(rule))).toEqual([]);
  });

  test("a card with the ports that a service lacks, and none without them", async () => {
    const e1 = "card CLOVER { kind tdm; ports 10 E1-75; draws 8 W }\n";
    const text = `${e1}${PREAMBLE}\n${equipped('service "x" 4 E1-75\nchassis SPINNEY {\n  slot 11 HEATH\n  slot 5 MIST\n  card FERN\n}')}`;
    const { fixes } = await fixesOf(text, "traffic-ports-short");
    expect(titles(fixes).slice(0, -1)).toEqual(["Add card CLOVER (changes the equipment)"]);
  });

  test("too little on standby takes couplers with less between their arms, at both ends first", async () => {
    const margin = (marginDb: number) =>
      `objective guarded like trunk { standby-margin ${marginDb} dB }\n${withHop((hop) =>
        hop
          .replace("objective trunk", "objective guarded")
          .replace("radio R18", "radio R18\n  arrangement 1+1 hot-standby")
          .replaceAll("antenna DISH60-18 at 40 m", "antenna DISH60-18 at 40 m\n    coupler H18-U direct"),
      )}`.replace("    availability 99.99 %\n", "");
    const { fixes, applied } = await fixesOf(margin(18), "standby-margin");
    expect(titles(fixes)[0]).toBe("Take coupler H18-E at KELD and TARN (changes the equipment)");
    expect(applied(fixes[0]!).match(/coupler H18-E direct/g)).toHaveLength(2);
    // Equal couplers take 7 dB at any time and leave 21 dB: more is not offered.
    const { fixes: none } = await fixesOf(margin(22), "standby-margin");
    expect(titles(none)).toEqual([expect.stringMatching(/^Accept /)]);
  });

  const DUAL = `antenna D18 like DISH60-18 { polarizations dual }
coupler DP18 { kind dual-polarized; band 17.7 GHz to 19.7 GHz; main-loss 3.9 dB }
`;
  const arranged = (arrangement: string, lines: string) =>
    DUAL +
    withHop((hop) =>
      hop
        .replace("objective trunk\n", "")
        .replace("radio R18", `radio R18\n  arrangement ${arrangement}`)
        .replaceAll("antenna DISH60-18 at 40 m", lines),
    );

  test("a further antenna with its coupler where units have no place, beside the first and clear of it", async () => {
    const { fixes, applied } = await fixesOf(
      arranged("8+0 xpic", "antenna D18 at 40 m\n    coupler DP18 direct"),
      "antenna-ports-short",
    );
    expect(titles(fixes)).toEqual([
      "Add D18 with DP18 at 38.9 m at KELD (changes the equipment)",
      "Add D18 with DP18 at 41.1 m at KELD (changes the equipment)",
      expect.stringMatching(/^Accept antenna-ports-short/),
    ]);
    expect(applied(fixes[0]!)).toContain(`    antenna D18 at 40 m
    second-antenna D18 at 38.9 m
    coupler DP18 direct
    second-coupler DP18 direct
    transmits high`);
    // The fifth carrier alone needs no coupler; a pair on a transducer takes the larger coupler first.
    const five = await fixesOf(
      arranged("4+1 xpic", "antenna D18 at 40 m\n    coupler DP18 direct"),
      "antenna-ports-short",
    );
    expect(titles(five.fixes)[0]).toBe("Add D18 at 38.9 m at KELD (changes the equipment)");
    const small = await fixesOf(
      arranged("4+0 xpic", "antenna D18 at 40 m\n    coupler O18 direct"),
      "antenna-ports-short",
    );
    expect(titles(small.fixes)[0]).toBe("Take coupler DP18 at KELD (changes the equipment)");
    expect(titles(small.fixes)[1]).toBe("Add D18 with O18 at 38.9 m at KELD (changes the equipment)");
  });

  test("a second antenna under the word of another arrangement is called by its own", async () => {
    const wrong = await fixesOf(
      arranged("1+1 hot-standby two-antennas", "antenna D18 at 40 m\n    diversity-antenna D18 at 38 m"),
      "antenna-ports-short",
    );
    expect(titles(wrong.fixes)[0]).toBe("Write second-antenna in place of diversity-antenna at KELD");
    expect(wrong.applied(wrong.fixes[0]!)).toContain("second-antenna D18 at 38 m\n    transmits high");
    const other = await fixesOf(
      arranged("1+1 space-diversity", "antenna D18 at 40 m\n    second-antenna D18 at 30 m"),
      "antenna-not-needed",
    );
    expect(titles(other.fixes)[0]).toBe("Write diversity-antenna in place of second-antenna at KELD");
  });

  test("what is told of a second antenna or coupler is mended there", async () => {
    const lacking = await fixesOf(
      arranged("8+0 xpic", "antenna D18 at 40 m\n    second-antenna D18 at 38 m\n    coupler DP18 direct"),
      "coupler-missing",
    );
    expect(lacking.applied(lacking.fixes[0]!)).toContain("coupler DP18 direct\n    second-coupler DP18\n");
    const band = await fixesOf(
      arranged(
        "3+0 single-polarization",
        "antenna D18 at 40 m\n    second-antenna D18 at 38 m\n    coupler H18-E direct\n    second-coupler H7-E direct",
      ),
      "coupler-out-of-band",
    );
    expect(band.applied(band.fixes[0]!)).toContain("coupler H18-E direct\n    second-coupler H18-E direct");
    const needless = await fixesOf(
      arranged("1+0", "antenna D18 at 40 m\n    second-antenna D18 at 38 m\n    second-coupler H18-E direct"),
      "antenna-not-needed",
    );
    expect(titles(needless.fixes)[0]).toBe("Remove the second antenna at KELD (changes the equipment)");
    expect(needless.applied(needless.fixes[0]!)).toContain("antenna D18 at 40 m\n    transmits high");
    const low = await fixesOf(
      arranged(
        "2+0 single-polarization two-antennas",
        "antenna D18 at 40 m\n    second-antenna D18 at 6 m",
      ).replace('hop KELD-TARN "Keld to Tarn" {', 'hop KELD-TARN "Keld to Tarn" {\n  objective trunk'),
      "second-antenna-clearance",
    );
    expect(titles(low.fixes)[0]).toMatch(/^Raise the second antenna at (KELD|TARN) to [\d.]+ m/);
  });

  test("an arrangement of another construction takes the radio's words", async () => {
    const outdoor = "radio R18O like R18 { construction all-outdoor }\n";
    const text = outdoor + withHop((hop) => hop.replace("radio R18", "radio R18O"));
    const { fixes, applied } = await fixesOf(text, "construction-mismatch");
    expect(titles(fixes)[0]).toBe("Take arrangement all-outdoor 1+0");
    expect(applied(fixes[0]!)).toContain("\n  arrangement all-outdoor 1+0\n");
  });
});

test("a block on one line stays on one line", async () => {
  const text = withHop((hop) =>
    hop.replace(
      /KELD \{\n {4}antenna DISH60-18 at 40 m\n {4}transmits high\n {2}\}/,
      "KELD { antenna DISH60-18 at 40 m; transmits high; power 24 dBm }",
    ),
  );
  const { fixes, applied } = await fixesOf(text, "power-above-mode");
  expect(applied(fixes[0]!)).toMatch(/KELD \{ antenna DISH60-18 at 40 m; transmits high \}/);
});

test("how surveys were made is stated for all that do not state it, by map or by field", async () => {
  const second = HOP.replace('KELD-TARN "Keld to Tarn"', "OTHER").replace("/ 4", "/ 5");
  const text = `${PREAMBLE}\n${[HOP, second]
    .map((hop) => hop.replace("  KELD {", '  survey "x.csv" from KELD // 2019\n  KELD {'))
    .join("\n")}`;
  const { fixes, applied } = await fixesOf(text, "survey-source");
  const written = fixes.filter(({ title }) => title.startsWith("Write ")).map(applied);
  expect(written).toEqual(
    ["map", "field"].map((source) => text.replaceAll("from KELD //", `from KELD by ${source} //`)),
  );
});

test("a finding that is accepted already needs nothing", async () => {
  const text = withHop((hop) =>
    hop.replaceAll("at 40 m", "at 12 m").replace("  KELD {", '  accept clearance because "x"\n  KELD {'),
  );
  const model = modelOf(text);
  const { results, findings } = judge(model);
  const finding = findings.find(({ rule }) => rule === "clearance")!;
  expect(finding.accepted).toBeDefined();
  expect(
    await findingFixes({ model, finding, judged: results("KELD-TARN"), before: findings }, () => ({
      findings: [],
    })),
  ).toEqual([]);
});

test("nothing is offered that does not help, however much is tried", async () => {
  const model = modelOf(withHop((hop) => hop.replaceAll("at 40 m", "at 12 m")));
  const { results, findings } = judge(model);
  const finding = findings.find(({ rule }) => rule === "clearance")!;
  expect(
    await findingFixes({ model, finding, judged: results("KELD-TARN"), before: findings }, () => ({
      findings,
    })),
  ).toEqual([]);
});
