/** Check values of tests/vectors/equipment; tolerances follow from the digits printed there. */
import fc from "fast-check";
import { expect, test } from "vitest";
import { batteryAutonomy } from "../../shared/equipment/battery.js";
import { coaxLoss, fitCoax } from "../../shared/equipment/coax.js";
import { idealMainLossDb, splitOf } from "../../shared/equipment/coupler-split.js";
import { feedOf } from "../../shared/equipment/dc-feed.js";
import { airFlow } from "../../shared/equipment/heat.js";
import { interfacesFit } from "../../shared/equipment/interfaces.js";
import { rssiVoltage } from "../../shared/equipment/rssi.js";
import { waveguideLoss, waveguideSize } from "../../shared/equipment/waveguide.js";
import {
  discAreaM2,
  dynamicPressurePa,
  frontalForceN,
  standardAirDensity,
  type TerrainClass,
  windAtHeight,
} from "../../shared/equipment/wind.js";
import type { Outcome } from "../../shared/propagation/outcome.js";
import { parabolicGainDbi } from "../../shared/radio/antenna-gain.js";
import { noisePowerDbm } from "../../shared/radio/threshold.js";
import { loadVectors, testRows } from "../support/vectors.js";

function got<T, S>(outcome: Outcome<T, S>): T {
  if (!outcome.ok) throw new Error(outcome.refusal.code);
  return outcome;
}

// biome-ignore lint/suspicious/noExplicitAny: check values of several shapes, read as they stand.
type Vectors = any;

const SPLIT: Vectors = loadVectors("equipment/split.json");
testRows("ideal main arm beside a standby arm", SPLIT.source, SPLIT.ideal as Vectors[], (row, is) => {
  is.close("main arm", got(idealMainLossDb(row.coupled_arm_dB)).mainLossDb, row.ideal_main_arm_dB, {
    absolute: 6e-6,
    relative: 6e-6,
  });
});
testRows("couplers against conservation of power", SPLIT.source, SPLIT.check as Vectors[], (row, is) => {
  const split = got(splitOf(row.main_dB, row.coupled_dB));
  is.close("shares", split.sumOfShares, row.sum_of_shares, { absolute: 6e-6 });
  is.close("excess", split.excessLossDb, row.excess_dB, { absolute: 6e-5 });
  is.same("possible", split.possible, row.possible);
});

test("an ideal coupler conserves power for every split, and an equal one loses 3.0103 dB", () => {
  const equalDb = 10 * Math.log10(2);
  expect(got(idealMainLossDb(equalDb)).mainLossDb).toBeCloseTo(equalDb, 9);
  fc.assert(
    fc.property(fc.double({ min: 0.1, max: 40, noNaN: true }), (standbyDb) => {
      const { mainLossDb } = got(idealMainLossDb(standbyDb));
      const split = got(splitOf(mainLossDb, standbyDb));
      expect(split.sumOfShares).toBeCloseTo(1, 9);
      expect(split.possible).toBe(true);
      expect(got(splitOf(mainLossDb + 0.1, standbyDb)).excessLossDb).toBeGreaterThan(0);
    }),
  );
});

const GUIDE: Vectors = loadVectors("equipment/waveguide.json");
const GUIDE_ROWS = GUIDE.sizes.flatMap((size: Vectors) =>
  size.attenuation_copper_dB_per_m.map((at: Vectors) => ({ size, ...at })),
) as Vectors[];
testRows("loss of rectangular guide", GUIDE.sources.independent, GUIDE_ROWS, (row, is) => {
  const size = waveguideSize(row.size.iec)!;
  is.same("same guide by its other names", waveguideSize(row.size.eia), waveguideSize(row.size.rcsc));
  is.close("width", size.widthM * 1e3, row.size.a_mm, { absolute: 1e-9 });
  const loss = got(waveguideLoss(size, row.f_GHz * 1e9));
  is.close("cut-off", loss.cutOffHz / 1e9, row.size.fc_TE10_GHz, { relative: 1e-5 });
  is.close("next mode", loss.nextModeHz / 1e9, row.size.next_mode_cutoff_GHz, { relative: 1e-5 });
  is.close("loss", loss.lossDbPerM, row.f_GHz === undefined ? 0 : row.independent, { relative: 1e-4 });
});
testRows("usual guide of each band", GUIDE.sources.independent, GUIDE.byBand as Vectors[], (row, is) => {
  const loss = got(waveguideLoss(waveguideSize(row.guide)!, row.f_GHz * 1e9));
  is.close("loss", loss.lossDbPerM, row.rigid_copper_dB_per_m, { relative: 5.1e-4 }); // four digits printed
});
test("a guide of poorer metal, against another library's test value", () => {
  // WR34 at 25 GHz, 0.3 of copper: 0.09533851108 Np/m (see examples in the vectors).
  const loss = got(waveguideLoss(waveguideSize("R260")!, 25e9, 0.3 * 58e6));
  expect(loss.attenuationNpPerM).toBeCloseTo(0.0953385111, 9);
  expect(waveguideLoss(waveguideSize("R260")!, 17e9)).toMatchObject({ ok: false });
});

test("flanges: face, type and guide must agree; other names are words", () => {
  expect(interfacesFit("UBR220", "PBR 220").fits).toBe(true);
  expect(interfacesFit("ubr220", "UBR220").fits).toBe(true);
  expect(interfacesFit("UBR220", "UBR260")).toMatchObject({
    fits: false,
    remark: "guide R220 meets guide R260",
  });
  expect(interfacesFit("UBR84", "UDR84").fits).toBe(false);
  expect(interfacesFit("CBR220", "PBR220").fits).toBe(false);
  expect(interfacesFit("CBR220", "CBR220").fits).toBe(false);
  expect(interfacesFit("PBR220", "PBR220")).toMatchObject({ fits: true, remark: expect.any(String) });
  expect(interfacesFit("round-18", "ROUND-18").fits).toBe(true);
  expect(interfacesFit("round-18", "UBR220").fits).toBe(false);
});

const COAX: Vectors = loadVectors("equipment/coax.json");
testRows("coaxial cable fitted through a table", COAX.source, COAX.fits as Vectors[], (row, is) => {
  const points = row.points.map((point: Vectors) => ({
    lossDbPerM: point.table_dB_per_100m / 100,
    frequencyHz: point.f_MHz * 1e6,
  }));
  const { model, greatestErrorPercent } = got(fitCoax(points));
  is.close("conductor", model.conductorDbPerMPerSqrtHz * 1e5, row.a_dB_per_100m_per_sqrtMHz, {
    relative: 1e-5,
  });
  is.close("dielectric", model.dielectricDbPerMPerHz * 1e8, row.b_dB_per_100m_per_MHz, { relative: 1e-5 });
  is.close("worst error", greatestErrorPercent, row.largest_rel_error_pct, { absolute: 0.0051 });
  for (const point of row.points as Vectors[]) {
    const at = got(coaxLoss(model, { frequencyHz: point.f_MHz * 1e6, lengthM: 100 })).lossDb;
    is.close("loss", at, point.model_dB_per_100m, { relative: 6e-4 });
  }
  is.close("at 350 MHz", got(coaxLoss(model, { frequencyHz: 350e6, lengthM: 100 })).lossDb, row.at_350_MHz, {
    relative: 5e-4,
  });
});
testRows("cable of some length", COAX.source, COAX.length as Vectors[], (row, is) => {
  const fit = COAX.fits.find((one: Vectors) => one.cable === row.cable);
  const model = {
    conductorDbPerMPerSqrtHz: fit.a_dB_per_100m_per_sqrtMHz / 1e5,
    dielectricDbPerMPerHz: fit.b_dB_per_100m_per_MHz / 1e8,
  };
  const { lossDb } = got(coaxLoss(model, { frequencyHz: row.f_MHz * 1e6, lengthM: row.length_m }));
  is.close("loss", lossDb, row.loss_dB, { relative: 5e-4 });
});
test("a cable known at one point, or by points that contradict physics, has conductor loss alone", () => {
  const one = got(fitCoax([{ lossDbPerM: 0.1, frequencyHz: 100e6 }])).model;
  expect(got(coaxLoss(one, { frequencyHz: 400e6, lengthM: 10 })).lossDb).toBeCloseTo(2, 9);
  const falling = got(
    fitCoax([
      { lossDbPerM: 0.1, frequencyHz: 100e6 },
      { lossDbPerM: 0.11, frequencyHz: 400e6 },
    ]),
  ).model;
  expect(falling.dielectricDbPerMPerHz).toBe(0);
  expect(fitCoax([])).toMatchObject({ ok: false });
});
test("a cable is not known by a point that means nothing, whatever the others say", () => {
  const sound = { lossDbPerM: 0.1, frequencyHz: 100e6 };
  for (const wrong of [0, -0.1, Number.NaN])
    for (const which of ["lossDbPerM", "frequencyHz"] as const)
      for (const points of [[{ ...sound, [which]: wrong }], [sound, { ...sound, [which]: wrong }]])
        expect(fitCoax(points), `${which} ${wrong}`).toMatchObject({ ok: false, refusal: { input: which } });
});

const DC: Vectors = loadVectors("equipment/dc.json");
testRows("direct current to a constant-power load", DC.formula, DC.vectors as Vectors[], (row, is) => {
  const feed = feedOf({ sourceV: row.V_source, loadW: row.P_load_W, loopOhm: row.R_loop_ohm });
  if (row.V_load === null) {
    is.same("no operating point", feed.ok, false);
    is.close("greatest power", feed.ok ? undefined : feed.steps?.greatestPowerW, row.P_max_W, {
      relative: 5e-5,
    });
    return;
  }
  const found = got(feed);
  is.close("load", found.loadV, row.V_load, { absolute: 6e-5 });
  is.close("current", found.currentA, row.I_A, { relative: 5e-5 });
  is.close("drop", found.dropV, row.drop_V, { relative: 5e-5 });
  is.close("loss", found.lossW, row.loss_W, { relative: 5e-5 });
  is.close("greatest power", found.greatestPowerW, row.P_max_W, { relative: 5e-5 });
});

const WIND: Vectors = loadVectors("equipment/wind.json");
testRows("wind on a round antenna", WIND.source, WIND.frontal as Vectors[], (row, is) => {
  const pressurePa = dynamicPressurePa(row.v_m_s, row.rho);
  is.close("pressure", pressurePa, row.q_Pa, { relative: 5e-6 });
  is.close("force", frontalForceN(pressurePa, discAreaM2(row.D_m), row.C), row.F_N, {
    relative: 1e-5,
    absolute: 0.05,
  });
});
const CLASS: Readonly<Record<string, TerrainClass>> = { "0.05": "II", "0.3": "III" };
testRows("peak wind pressure over height", WIND.source, WIND.profile as Vectors[], (row, is) => {
  const wind = got(
    windAtHeight({
      basicSpeedMPerS: row.vb_m_s,
      heightM: row.z_m,
      terrain: CLASS[String(row.z0_m)]!,
    }),
  );
  is.close("mean", wind.meanSpeedMPerS, row.vm_m_s, { relative: 3e-5 });
  is.close("turbulence", wind.turbulence, row.Iv, { absolute: 6e-6 });
  is.close("pressure", wind.peakPressurePa, row.qp_Pa, { relative: 5e-5 });
  is.close("exposure", wind.exposureFactor, row.ce, { absolute: 6e-4 });
});
testRows("air density", WIND.source, WIND.isa as Vectors[], (row, is) => {
  is.close("density", got(standardAirDensity(row.h_m)).airDensityKgPerM3, row.rho_kg_m3, { absolute: 6e-5 });
});

const SITE: Vectors = loadVectors("equipment/site.json");
testRows("air that carries heat away", SITE.heat.formula, SITE.heat.vectors as Vectors[], (row, is) => {
  is.close("flow", got(airFlow({ heatW: row.P_W, riseK: row.dT_K })).flowM3PerH, row.V_m3_per_h, {
    relative: 3e-5,
  });
});
testRows("hours on a battery", SITE.battery.formula, SITE.battery.vectors as Vectors[], (row, is) => {
  const found = batteryAutonomy({
    capacityAh: row.capacity_Ah,
    nominalV: row.V,
    depthOfDischarge: row.depth_of_discharge,
    temperatureFactor: row.temperature_factor,
    endOfLifeFactor: row.end_of_life_factor,
    efficiency: row.efficiency,
    loadW: row.load_W,
  });
  is.close("hours", got(found).hours, row.hours, { relative: 5e-5 });
});
testRows("RSSI voltage", SITE.rssi.formula, SITE.rssi.vectors as Vectors[], (row, is) => {
  const points = SITE.rssi.example_points.map(([levelDbm, voltageV]: Vectors) => ({ levelDbm, voltageV }));
  is.close("voltage", got(rssiVoltage(points, row.rsl_dBm)).voltageV, row.V, { absolute: 1e-9 });
  is.same("outside", rssiVoltage(points, -91).ok || rssiVoltage(points, -19).ok, false);
});

const NOISE: Vectors = loadVectors("equipment/antenna-noise.json");
testRows("aperture gain", NOISE.formula.gain, NOISE.antenna as Vectors[], (row, is) => {
  for (const efficiency of ["0.50", "0.55", "0.65"]) {
    const gain = parabolicGainDbi(row.D_m, row.f_GHz * 1e9, Number(efficiency));
    is.close(efficiency, gain, row[`gain_dBi_eff_${efficiency}`], { absolute: 6e-5 });
  }
});
testRows("noise floor", NOISE.formula.noise, NOISE.noise as Vectors[], (row, is) => {
  is.close("noise", noisePowerDbm(row.B_MHz * 1e6, row.F_dB), row.N_dBm, { absolute: 6e-4 });
});

test("nothing that goes in makes a number that is none", () => {
  const any = fc.oneof(fc.double(), fc.constantFrom(0, -1, 1e308, Number.NaN, Number.POSITIVE_INFINITY));
  const finite = (value: object) => {
    for (const part of Object.values(value))
      if (typeof part === "number") expect(part).toSatisfy(Number.isFinite);
  };
  fc.assert(
    fc.property(any, any, any, any, (a, b, c, d) => {
      finite(splitOf(a, b));
      finite(idealMainLossDb(a));
      finite(waveguideLoss({ widthM: a, heightM: b }, c, d));
      finite(feedOf({ sourceV: a, loadW: b, loopOhm: c }));
      finite(windAtHeight({ basicSpeedMPerS: a, heightM: b, terrain: "II", airDensityKgPerM3: c }));
      finite(standardAirDensity(a));
      finite(batteryAutonomy({ capacityAh: a, loadW: b, depthOfDischarge: c, nominalV: d }));
      finite(airFlow({ heatW: a, riseK: b, airDensityKgPerM3: c }));
      finite(
        coaxLoss({ conductorDbPerMPerSqrtHz: a, dielectricDbPerMPerHz: b }, { frequencyHz: c, lengthM: d }),
      );
      finite(
        fitCoax([
          { lossDbPerM: a, frequencyHz: b },
          { lossDbPerM: c, frequencyHz: d },
        ]),
      );
      finite(
        rssiVoltage(
          [
            { levelDbm: a, voltageV: b },
            { levelDbm: c, voltageV: d },
          ],
          b,
        ),
      );
    }),
  );
});
