/** What the page of a hop shows of its second antennas and its further channels. */
import { expect, test } from "vitest";
import type { Hop } from "../../shared/design/design.js";
import { evaluateHop } from "../../shared/evaluate/hop.js";
import { printMarkdown } from "../../shared/report/document/markdown.js";
import { drawProfile } from "../../shared/report/draw/profile.js";
import { hopPage } from "../../shared/report/pages/hop-page.js";
import { ANTENNA, end, groundOf, KELD, levelGround, makeHop, TARN } from "../evaluate/builders.js";

const LENGTH_M = evaluateHop(makeHop(), levelGround(9000)).distanceM!;
const GROUND = groundOf(
  Array.from({ length: 101 }, () => 200),
  LENGTH_M,
);

function page(hop: Hop): string {
  const result = evaluateHop(hop, GROUND);
  const input = { hop, result, profile: GROUND.profile, findings: [], name: "hops/A", colophon: "" };
  return printMarkdown(hopPage(input))[0]!.text;
}

const SECOND = { diversityAntenna: { ...ANTENNA, name: "A-SECOND" }, diversityHeightM: 31 };

test("a second antenna is told with its height, and drawn with its own thin ray", () => {
  const one = makeHop({ ends: [end(KELD, "high"), end(TARN, "low")] });
  const both = makeHop({ ends: [end(KELD, "high", SECOND), end(TARN, "low")] });
  expect(page(one)).not.toMatch(/diversity antenna/i);
  expect(page(both)).toMatch(/Diversity antenna \| A-SECOND \| –/);
  expect(page(both)).toMatch(/Its height above ground \| 31(\.0)? m \| –/);
  const drawn = (hop: Hop) => drawProfile(hop, evaluateHop(hop, GROUND), GROUND.profile!)!.svg;
  expect(drawn(one)).not.toContain("diversity");
  // The ray, and its line in the legend.
  expect(drawn(both).match(/class="diversity"/g)).toHaveLength(2);
  expect(drawn(both).match(/class="second-antenna"/g)).toHaveLength(1);
});

test("each further carrier has a row with what either end transmits", () => {
  const further = {
    plan: "F.595",
    bandwidthHz: 55e6,
    number: 5,
    lowHz: 17.975e9,
    highHz: 18.985e9,
    separationHz: 110e6,
    standing: "confirmed" as const,
  };
  const channel = { ...further, number: 3 };
  const text = page(makeHop({ channel, furtherChannels: [further] }));
  expect(text).toContain("F.595, 55 MHz, channels 3, 5");
  expect(text).toMatch(/Transmits, carrier 2, channel 5 \| 18\.985 GHz, high half \| 17\.975 GHz, low half/);
});
