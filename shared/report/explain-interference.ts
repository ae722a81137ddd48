/** Interference at a receiver, taken apart: each strong transmission with its terms and where they are from, and the sum. */

import type { MethodId } from "../evaluate/account/methods.js";
import type { HopResult } from "../evaluate/account/result.js";
import { dbi, dbm, decibels, frequency, kilometres, trimmed } from "../format/numbers.js";
import type { AntennaView } from "../interference/antenna-view.js";
import type { Entry } from "../interference/entry.js";
import { pathTermsOf } from "../interference/entry-path.js";
import type { InterferenceAt } from "../interference/receiver-result.js";
import { isAimed, receiverWords, relationWords, senderWords } from "../words/interference.js";
import { type Explanation, explanation } from "./explanation.js";
import {
  carrierRatio,
  filterWords,
  interferenceMethods,
  interferenceTermsTold,
  isReached,
  lossOrigin,
  share,
  sumDbm,
} from "./interference.js";
import type { Step } from "./steps.js";

/** Weaker ones stand in the sum with their I/N alone, and beyond a second number all together. */
const MOST_EXPLAINED = 5;
const MOST_NAMED = 20;

/** @param found undefined: interference was not computed */
export function explainInterference(
  found: readonly InterferenceAt[] | undefined,
  { directions }: HopResult,
): Explanation[] {
  return (found ?? [])
    .filter(isReached)
    .flatMap((at) => [
      ...at.entries.slice(0, MOST_EXPLAINED).map((entry) => entryOf(entry, at)),
      sumOf(at, directions),
    ]);
}

function entryOf(entry: Entry, { receiver, terms }: InterferenceAt): Explanation {
  const { sender, path } = entry;
  const { longTermPercent, shortTermPercent } = pathTermsOf(terms);
  const steps: Step[] = [
    step("frequency of the sender", frequency(sender.frequencyHz)),
    step("its offset", `${trimmed(entry.offsetHz / 1e6, 6)} MHz`),
    ...(sender.power === undefined
      ? []
      : [
          step(`power of its strongest mode, ${sender.power.modulation}`, dbm(sender.power.powerDbm)),
          step("loss from it to the sender's antenna", decibels(sender.power.lossDb)),
          step("gain of the sender's antenna", dbi(sender.antenna.gainDbi)),
        ]),
    step(
      sender.power === undefined ? "EIRP, full power" : "EIRP, full power = power - loss + gain",
      dbm(sender.eirpDbm),
    ),
    ...(sender.reductionDb > 0
      ? [step("let down by power control, while nothing fades", decibels(sender.reductionDb))]
      : []),
    step("distance", kilometres(path.distanceM)),
    step(
      "off the axis of the sender's antenna",
      isAimed(sender) ? `${entry.leavesOffAxisDeg.toFixed(2)}°` : "not known where it looks: its whole gain",
    ),
    step("off the axis of this antenna", `${entry.arrivesOffAxisDeg.toFixed(2)}°`),
    step("polarization", relationWords(entry.relation)),
    step(
      `discrimination of both antennas (sender: ${patternOf(sender.antenna, entry.leavesOffAxisDeg)}; here: ${patternOf(receiver.antenna, entry.arrivesOffAxisDeg)})`,
      decibels(entry.discriminationDb),
    ),
    step(`loss for ${share(longTermPercent)}, ${lossOrigin(entry)}`, decibels(path.longTermLossDb)),
    step(`loss for ${share(shortTermPercent)}`, decibels(path.shortTermLossDb)),
    ...(path.ruledBy === undefined ? [] : [step("what rules the loss", path.ruledBy)]),
    step("gain of this antenna", dbi(receiver.antenna.gainDbi)),
    step("loss from it to the receiver", decibels(receiver.lossDb)),
    step("I = EIRP - let down - loss - discrimination + gain - loss to the receiver", dbm(entry.levelDbm)),
    step("kept out by the filters", filterWords(entry)),
    step("noise of the receiver", dbm(receiver.noiseDbm)),
    step("I/N = I - filters - noise", decibels(entry.toNoiseDb)),
    step("I/N with full power", decibels(entry.fullToNoiseDb)),
    step("I/N for a short time, full power", decibels(entry.shortToNoiseDb)),
    ...(entry.inSumToNoiseDb === entry.toNoiseDb
      ? []
      : [step("I/N as it counts in the sum, by the average pattern", decibels(entry.inSumToNoiseDb))]),
  ];
  return explanation(
    `interference of ${senderWords(sender)} at ${receiverWords(receiver)}`,
    `I/N ${decibels(entry.toNoiseDb)}`,
    { methods: methodsOf(entry, receiver.antenna), steps },
  );
}

function methodsOf({ path, filterDb, sender }: Entry, here: AntennaView): MethodId[] {
  const isReference = [sender.antenna, here].some(({ source }) => source === "F.699");
  return [
    path.by === "profile" ? "interference-loss" : "interference-least-loss",
    ...(isReference ? (["pattern-envelope"] as const) : []),
    "polarization-coupling",
    ...(filterDb === undefined ? [] : (["net-filter-discrimination"] as const)),
  ];
}

function patternOf({ source, mainLobeToDeg = 0 }: AntennaView, offAxisDeg: number): string {
  if (source === "pattern")
    return offAxisDeg < mainLobeToDeg
      ? "12 (angle/beamwidth)² in its main lobe, before the first point of its own pattern"
      : "its own pattern";
  return source === "none" ? "not known, none" : source;
}

function sumOf(at: InterferenceAt, directions: HopResult["directions"]): Explanation {
  const { receiver, entries, coLocated, cutToNoiseDb, beyondMost, toNoiseDb, fullToNoiseDb, shortToNoiseDb } =
    at;
  const more = entries.length - MOST_NAMED;
  const [sum, ratio] = [sumDbm(at), carrierRatio(at, directions)];
  const steps: Step[] = [
    ...(receiver.noise === undefined
      ? []
      : [
          step(
            receiver.noiseAssumed ? "noise figure of the receiver, assumed" : "noise figure of the receiver",
            decibels(receiver.noise.figureDb),
          ),
          step(
            "its symbol rate, channel width / 1.15",
            `${trimmed(receiver.noise.symbolRateHz / 1e6, 3)} MHz`,
          ),
        ]),
    step(
      receiver.noise === undefined
        ? "noise of the receiver"
        : "noise of the receiver = kT0 + symbol rate + noise figure",
      dbm(receiver.noiseDbm),
    ),
    ...entries
      .slice(0, MOST_NAMED)
      .map(({ sender, inSumToNoiseDb }) => step(`I/N of ${senderWords(sender)}`, decibels(inSumToNoiseDb))),
    ...(more > 0 ? [step("further ones in the sum", String(more))] : []),
    ...coLocated.map(({ sender, toNoiseDb: coupled }) =>
      step(
        `at the same place: ${senderWords(sender)}`,
        coupled === undefined ? "no coupling loss is stated, not judged" : `I/N ${decibels(coupled)}`,
      ),
    ),
    ...(beyondMost === undefined ? [] : [step("more than are computed at one receiver", String(beyondMost))]),
    ...(cutToNoiseDb === undefined
      ? []
      : [step("I/N of the bounds of all that was not computed one by one", decibels(cutToNoiseDb))]),
    ...(toNoiseDb === undefined
      ? []
      : [step("I/N of the sum, added in power", decibels(toNoiseDb)), step("the sum", dbm(sum!))]),
    step("degradation, 10 log(1 + 10^(I/N / 10))", decibels(at.degradationDb, 1)),
    ...(fullToNoiseDb === undefined
      ? []
      : [
          step("with all senders at full power: I/N", decibels(fullToNoiseDb)),
          step("with all senders at full power: degradation", decibels(at.fullDegradationDb, 1)),
        ]),
    step("degradation by the strongest alone", decibels(at.singleDegradationDb, 1)),
    ...(shortToNoiseDb === undefined
      ? []
      : [step("degradation for a short time, by the strongest", decibels(at.shortDegradationDb, 1))]),
    ...(ratio === undefined
      ? []
      : [
          step(`C/I at the wanted level, ${ratio.modulation}`, decibels(ratio.wantedDb)),
          step(`C/I at the raised threshold, ${ratio.modulation}`, decibels(ratio.fadedDb)),
        ]),
    ...interferenceTermsTold([at]).map((text) => step("rests on", text)),
  ];
  return explanation(
    `interference at ${receiverWords(receiver)}`,
    toNoiseDb === undefined
      ? "nothing is judged"
      : `I/N ${decibels(toNoiseDb)}, the threshold rises by ${decibels(at.degradationDb)}`,
    { methods: interferenceMethods([at]), steps },
  );
}

function step(name: string, value: string): Step {
  return { name, value };
}
