/** Limits of the Radio Regulations and of the design, from both sides. The limits themselves are from memory. */
import { expect, test } from "vitest";
import { exampleHop } from "../../shared/rules/example-preamble.js";
import { judgeExample } from "./example-design.js";

function told(text: string): readonly string[] {
  const { problems, findings } = judgeExample(text);
  expect(problems).toEqual([]);
  return findings.flatMap((one) => (one.rule === "emission-limits" ? `${one.severity}: ${one.message}` : []));
}

/** A transmitter of this power on an antenna of this gain. */
const strong = (powerDbm: number, gainDbi: number) =>
  `radio R18K like R18 {
  mode 55 MHz 256QAM rate 350 Mbit/s power ${powerDbm} dBm threshold -66 dBm
}
antenna BIG {
  band 17.7 GHz to 19.7 GHz
  diameter 1.2 m
  gain ${gainDbi} dBi at 18.7 GHz
}
${exampleHop({
  hop: "polarization vertical\n  radio R18K\n  mode 55 MHz 256QAM\n  arrangement 1+0",
  keld: "antenna BIG at 40 m\n    transmits high",
})}`;

test.each([
  ["20 dBm on 38.5 dBi are as much as is stated", exampleHop({ more: "most-eirp 58.5 dBm" }), 0],
  ["a tenth more than is stated, at both ends", exampleHop({ more: "most-eirp 58.4 dBm" }), 2],
  ["the same stated in dBW", exampleHop({ more: "most-eirp 28.4 dBW" }), 2],
  ["10 dBW into the antenna", strong(40, 40), 0],
  ["10.1 dBW into the antenna", strong(40.1, 40), 2],
  ["an EIRP of 55 dBW", strong(40, 45), 0],
])("%s", (_, text, count) => {
  expect(told(text)).toHaveLength(count);
});

test("what it passes is told with both figures, and that the limit is from memory", () => {
  expect(told(exampleHop({ more: "most-eirp 58 dBm" }))[0]).toBe(
    "error: KELD radiates an EIRP of 28.5 dBW, the design allows 28.0 dBW",
  );
  expect(told(strong(40, 46))).toEqual([
    "warning: KELD radiates an EIRP of 56.0 dBW, the Radio Regulations allow 55.0 dBW (21.3, from memory)",
  ]);
});

test("the power that meets a limit is told, and not for what more than power decides", () => {
  const helps = (text: string) =>
    judgeExample(text).findings.flatMap((one) => (one.rule === "emission-limits" ? [one.help] : []));
  // 20 dBm on 38.5 dBi are 58.5 dBm.
  expect(helps(exampleHop({ more: "most-eirp 58 dBm" }))[0]).toBe("With 19.5 dBm or less at KELD it is met.");
  expect(
    told(
      exampleHop({ more: "most-eirp 58 dBm" }).replace(
        /antenna DISH60-18 at 40 m/g,
        "$&\n    power 19.5 dBm",
      ),
    ),
  ).toEqual([]);
  // 40.1 dBm are a tenth above 10 dBW.
  expect(helps(strong(40.1, 40))[0]).toBe("With 40.0 dBm or less at KELD it is met.");
});

/**
 * From 47.5 degrees north the orbit sets where cos l = 0.1513/cos 47.5, l = 77.1 degrees, and the satellite there stands
 * at 180 - atan(tan l/sin 47.5) = 99.6 degrees: a beam that leaves that way, level, looks into it.
 */
const towardOrbit = (powerDbm: number, [latitude, longitude]: readonly [number, number]) => `site EAST {
  at ${latitude} ${longitude}
  structure mast 60 m
}
radio R7 {
  tuning 7.1 GHz to 7.9 GHz
  mode 28 MHz 128QAM rate 150 Mbit/s power ${powerDbm} dBm threshold -72 dBm
}
hop KELD-EAST {
  radio R7
  mode 28 MHz 128QAM
  polarization vertical
  arrangement 1+0
  KELD {
    antenna DISH120-7 at 40 m
    transmits 7.4 GHz
  }
  EAST {
    antenna DISH120-7 at 40 m
    transmits 7.6 GHz
  }
}`;
const INTO = [47.485, -30.369] as const;
const ASIDE = [47.6, -30.4] as const;

test("a beam into the orbit: told from 35 dBW on, a warning from 47 dBW on, and not for a beam aside", () => {
  // 37 dBi at 7.5 GHz: 27.9 dBm are 34.9 dBW, 28.2 dBm 35.2 dBW, 40.2 dBm 47.2 dBW.
  expect(told(towardOrbit(27.9, INTO))).toEqual([]);
  expect(told(towardOrbit(28.2, ASIDE))).toEqual([]);
  const [some] = told(towardOrbit(28.2, INTO));
  expect(some).toMatch(
    /^info: the beam at KELD passes the geostationary orbit at 0\.\d° with 35\.2 dBW; above 35 dBW/,
  );
  expect(some).toContain("47 dBW at most where that cannot be kept (21.4)");
  expect(told(towardOrbit(40.2, INTO))[0]).toMatch(/^warning: the beam at KELD/);
});
