import { address } from "../design/address.js";
import type { Coupler } from "../design/catalogue.js";
import { idealMainLossDb, splitOf } from "../equipment/coupler-split.js";
import { couplersStated } from "../equipment/stands.js";
import { trimmed } from "../format/numbers.js";
import { aboutEntries } from "./entry-rule.js";
import { exampleHop } from "./example-preamble.js";
import { gathering } from "./rule.js";

export const couplerImpossible = gathering({
  scope: "network",
  id: "coupler-impossible",
  severity: "error",
  title: "A coupler cannot give out more power than it takes in",
  checks:
    "10^(-main/10) + 10^(-standby/10) of a hybrid at most 1: an equal coupler loses at least 3.01 dB an arm. No arm gains.",
  why: "A budget with such a coupler is too good by what the catalogue forgot.",
  fix: 'Look the losses up again; "6 dB" may be the standby arm or the total of both ends.',
  source: "conservation of power",
  good: exampleHop(),
  bad: `coupler H18-3 {\n  kind hybrid\n  main-loss 3 dB\n}\n\n${exampleHop({
    hop: "polarization vertical\n  radio R18\n  mode 55 MHz 128QAM\n  arrangement 1+1 hot-standby",
    keld: "antenna DISH60-18 at 40 m\n    coupler H18-3 direct\n    transmits high",
    tarn: "antenna DISH60-18 at 40 m\n    coupler H18-3 direct\n    transmits low",
  })}`,
  ...aboutEntries(
    (hop) => hop.ends.flatMap(couplersStated).map(({ coupler }) => coupler),
    (coupler) => {
      const message = impossible(coupler);
      if (message !== undefined) return [{ at: address("coupler", coupler.name, "main-loss"), message }];
      const ofSecond = secondOf(coupler);
      const second = ofSecond && impossible(ofSecond);
      const fact = coupler.secondMainLossDb === undefined ? "second-standby-loss" : "second-main-loss";
      return second === undefined
        ? []
        : [{ at: address("coupler", coupler.name, fact), message: `second polarization: ${second}` }];
    },
  ),
});

/** With the losses of its second polarization; undefined: they are those of the first. */
function secondOf(coupler: Coupler): Coupler | undefined {
  const { mainLossDb, standbyLossDb, secondMainLossDb, secondStandbyLossDb } = coupler;
  if (secondMainLossDb === undefined && secondStandbyLossDb === undefined) return undefined;
  return {
    ...coupler,
    mainLossDb: secondMainLossDb ?? mainLossDb,
    standbyLossDb: secondStandbyLossDb ?? standbyLossDb,
  };
}

function impossible({ name, kind, mainLossDb, standbyLossDb }: Coupler): string | undefined {
  if (mainLossDb === undefined) return undefined;
  const otherDb = standbyLossDb ?? mainLossDb;
  if (mainLossDb < 0 || otherDb < 0) return `${name} would amplify: a loss below 0 dB`;
  // An orthomode transducer splits nothing: its arms carry a polarization each.
  if (kind === undefined || kind === "omt") return undefined;
  const split = splitOf(mainLossDb, otherDb);
  if (!split.ok || split.possible) return undefined;
  if (standbyLossDb === undefined || standbyLossDb === mainLossDb) {
    return `${name} loses ${trimmed(mainLossDb, 2)} dB an arm; an equal coupler loses at least 3.01 dB`;
  }
  const ideal = idealMainLossDb(standbyLossDb);
  if (!ideal.ok) return `${name} loses nothing in its standby arm: nothing is left for the main arm`;
  return `${name} loses ${trimmed(mainLossDb, 2)} dB and ${trimmed(standbyLossDb, 2)} dB; with ${trimmed(standbyLossDb, 2)} dB in the standby arm the main arm loses at least ${trimmed(ideal.mainLossDb, 2)} dB`;
}
