/** Rows of the language that no column of a list states: a new property gets a column, or its name here. */
import { expect, test } from "vitest";
import { propertiesOf } from "../../language/schema/index.js";
import type { Context } from "../../language/schema/types.js";
import type { Figure } from "../../shared/lists/figures.js";
import type { Statement } from "../../shared/lists/state.js";
import { endStatements, hopStatements, siteStatements } from "../../shared/lists/state-facts.js";

const figure = (unit: string): Figure => ({ value: 12, number: 12, unit, step: 1 });
const from = { sheet: "S", line: 2 };
const chosen = { antenna: "A", diversityAntenna: "A", coupler: "C", feeder: "F", radio: "R", objective: "O" };
const end = {
  antennaHeight: figure("m"),
  diversityHeight: figure("m"),
  mounting: "direct",
  feederLength: figure("m"),
  transmits: "high",
  power: figure("dBm"),
  extraLoss: figure("dB"),
} as const;
const state = { word: "planned" } as const;
const hop = {
  from,
  state,
  channel: { plan: "F.595", width: figure("MHz"), number: 4 },
  polarization: "vertical",
  arrangement: "1+0",
  width: figure("MHz"),
  lowestMode: "QPSK",
  highestMode: "128QAM",
} as const;

const words = (...statements: readonly Statement[]) => statements.map(({ word }) => word);

const STATED: { readonly [C in Extract<Context, "site" | "hop" | "end">]: readonly string[] } = {
  site: words(
    ...siteStatements({
      state,
      position: { latitudeDeg: 47, longitudeDeg: -30, stepDeg: 1e-6 },
      ground: figure("m"),
      structure: "mast",
      structureHeight: figure("m"),
    }),
  ),
  hop: words(...hopStatements(hop, chosen), ...hopStatements({ ...hop, lowestMode: undefined }, chosen)),
  end: words(...endStatements(end, chosen, true), ...endStatements(end, {}, true)),
};

/** What spreadsheets of sites and hops seldom hold, or hold in a form of their own. */
const WITHOUT_COLUMN: typeof STATED = {
  site: [
    "access",
    "address",
    "contact",
    "accept",
    "alarm",
    "balun",
    "battery",
    "cable-run",
    "chassis",
    "clock-source",
    "coast",
    "coupling-loss",
    "coupling-loss-others",
    "delivery",
    "feed",
    "field",
    "handover",
    "mount",
    "plant",
    "rack",
    "service",
    "weight-limit",
    "wind",
    "wind-limit",
  ],
  hop: [
    "accept",
    "climate",
    "degradation",
    "emission-class",
    "field",
    "measured",
    "measured-rain",
    "most-eirp",
    "obstacle",
    "pair",
    "power-control",
    "repair-time",
    "surface",
    "survey",
  ],
  end: [
    "arms",
    "arrangement",
    "as-built",
    "bracket",
    "cable",
    "delivery",
    "fourth-antenna",
    "fourth-coupler",
    "fourth-feeder",
    "if-port",
    "mounting",
    "power-control",
    "second-antenna",
    "second-coupler",
    "second-feeder",
    "third-antenna",
    "third-coupler",
    "third-feeder",
    "unit-sub-band",
  ],
};

test.each(["site", "hop", "end"] as const)(
  "each property of a %s has a column, or is named as having none",
  (context) => {
    const stated = new Set(STATED[context]);
    expect([...stated].filter((word) => WITHOUT_COLUMN[context].includes(word))).toEqual([]);
    expect([...stated, ...WITHOUT_COLUMN[context]].sort()).toEqual(
      propertiesOf(context)
        .map(({ name }) => name)
        .sort(),
    );
  },
);
