/** A hub worked by hand: every term of what one hop's sender brings to the other's receiver. */
import { expect, test } from "vitest";
import { evaluateHop } from "../../shared/evaluate/hop.js";
import { inverse } from "../../shared/geodesy/geodesic.js";
import { NO_FILES } from "../../shared/others/listed.js";
import { fromHub } from "../../shared/rules/example-interference.js";
import { designOf } from "../equipment/designs.js";
import { exampleGround } from "../rules/example-design.js";
import { interferenceIn } from "../support/interference.js";

function felt(channel: number) {
  const design = designOf(fromHub({ channel }));
  const results = new Map(
    [...design.hops.values()].map((hop) => [hop.name, evaluateHop(hop, exampleGround(hop))]),
  );
  const network = interferenceIn({ design, results, listed: NO_FILES, day: "2026-06-01" }, () => undefined);
  return {
    design,
    results,
    at: network.of("KELD-TARN").find(({ receiver }) => receiver.place.site === "KELD")!,
  };
}

test("the hub's sender for the one hop at the receiver of the other, on the same channel", () => {
  const { design, results, at } = felt(4);
  const { receiver, entries } = at;
  expect(entries).toHaveLength(1);
  const [entry] = entries;
  expect(entry!.sender.key).toBe("MOSS-TARN TARN 0 vertical 1");
  // 20 dBm through no coupler on 38.5 dBi: 58.5 dBm; channel 4 of the low half: 18 700 - 1000 + 4 * 55 = 17 920 MHz.
  // QPSK has the greatest power of the catalogue, 24 dBm, but the hop states 128QAM alone.
  expect(entry!.sender.eirpDbm).toBeCloseTo(20 + 38.5, 9);
  expect(entry!.sender.frequencyHz).toBe(17.92e9);
  // Off its axis by the angle between the two hops at the hub, and on the axis of the receiver but for the arc.
  const position = (site: string) => design.sites.get(site)!.position!;
  const bearing = (to: string) => inverse({ from: position("TARN"), to: position(to) }).azimuthFromDeg;
  const between = bearing("KELD") - bearing("MOSS");
  expect(between).toBeGreaterThan(4.5);
  expect(between).toBeLessThan(6.5);
  expect(entry!.leavesOffAxisDeg).toBeCloseTo(between, 1);
  expect(entry!.arrivesOffAxisDeg).toBeLessThan(0.1);
  // F.699 for 38.5 dBi of 0.6 m at 17.92 GHz: x = 35.87, G1 = 25.32, beyond 100/x = 2.79 degrees 52 - 10 log x - 25 log phi.
  const x = (0.6 * 17.92e9) / 299792458;
  const sideDbi = 52 - 10 * Math.log10(x) - 25 * Math.log10(entry!.leavesOffAxisDeg);
  const axisDb = 2.5e-3 * (x * entry!.arrivesOffAxisDeg) ** 2;
  expect(entry!.discriminationDb).toBeCloseTo(38.5 - sideDbi + axisDb, 9);
  // Over unknown ground the least loss: free space of 92.4, less 2.6 (1 - exp(-d/10)) log(50/0.32) at beta0, less 0.03.
  const dKm = entry!.path.distanceM / 1000;
  expect(dKm).toBeCloseTo(results.get("KELD-TARN")!.distanceM! / 1000, 6);
  const clearDb = 92.4 + 20 * Math.log10(17.92 * dKm) - 0.03;
  const focusDb = 2.6 * (1 - Math.exp(-0.1 * dKm)) * Math.log10(0.32 / 50);
  const gasDb = entry!.path.longTermLossDb - clearDb - focusDb;
  // Gas at 3 g/m3 near 18 GHz: some hundredths of a dB a km.
  expect(gasDb / dKm).toBeGreaterThan(0.01);
  expect(gasDb / dKm).toBeLessThan(0.06);
  // The same spectrum and filter: 10 log of raised cosine over its product with itself, roll-off 0.15: 0.16 dB.
  expect(entry!.filterDb).toBeCloseTo(0.16, 1);
  const levelDbm = 58.5 + 38.5 - entry!.discriminationDb - entry!.path.longTermLossDb;
  expect(entry!.levelDbm).toBeCloseTo(levelDbm, 9);
  // N = -173.975 + 10 log(55e6/1.15) + 6.5.
  expect(receiver.noiseDbm).toBeCloseTo(-173.975 + 10 * Math.log10(55e6 / 1.15) + 6.5, 2);
  const toNoiseDb = levelDbm - entry!.filterDb! - receiver.noiseDbm;
  expect(entry!.toNoiseDb).toBeCloseTo(toNoiseDb, 9);
  const cut = at.cutToNoiseDb === undefined ? 0 : 10 ** (at.cutToNoiseDb / 10);
  expect(at.degradationDb).toBeCloseTo(10 * Math.log10(1 + 10 ** (toNoiseDb / 10) + cut), 9);
  expect(at.degradationDb).toBeGreaterThan(10);
});

test("two channels apart it is beyond the filters, and at another polarization weaker by the discrimination", () => {
  expect(felt(8).at.entries).toEqual([]);
  expect(felt(5).at.entries[0]?.toNoiseDb ?? -99).toBeLessThan(felt(4).at.entries[0]!.toNoiseDb - 20);
});
