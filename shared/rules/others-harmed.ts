import { type Address, address } from "../design/address.js";
import type { Fix } from "../design/fact-change.js";
import { decibels } from "../format/numbers.js";
import { ROUNDING_DB, USUAL_TOWARD_OTHERS_DB } from "../interference/limits.js";
import type { InterferenceFound } from "../interference/network.js";
import type { InterferenceAt } from "../interference/receiver-result.js";
import { isOwn } from "../interference/station.js";
import { entryWords, foreignWords } from "../words/interference.js";
import { exampleHop } from "./example-preamble.js";
import { lessInterference } from "./fixes/less-interference.js";
import type { Mending } from "./fixes/mending.js";
import { OTHERS_EXAMPLE } from "./others-words.js";
import type { NetworkRule, Report } from "./rule.js";

/** One of them listens behind KELD to the frequency that TARN sends. */
const RECEIVERS = OTHERS_EXAMPLE.replace(
  "\n}",
  '\n  receiver-latitude "rx_lat"\n  receiver-longitude "rx_lon"\n}',
);

export const othersHarmed: NetworkRule = {
  scope: "network",
  id: "others-harmed",
  severity: "error",
  ofResults: true,
  title: "Receivers of others are left their threshold",
  checks:
    "I/N that the hops of this design bring to every receiver of the lists of others, in the long-term and the short-term percentage, against `toward-others`; where the network states nothing, a warning from an I/N of -10 dB on.",
  why: "Whoever was there first may ask that this hop is taken off the air.",
  fix: "Another channel, the other polarization, less power, or an antenna that sends less aside.",
  source: "common practice; -10 dB is from memory (F.758)",
  fixes: mendOthers,
  comesTo({ about }, after) {
    const toNoiseDb = about === undefined ? undefined : atOther(after, about)?.toNoiseDb;
    const what = toNoiseDb === undefined ? "nothing is left there" : `an I/N of ${decibels(toNoiseDb)} there`;
    return `${what}, nothing new elsewhere`;
  },
  good: `${RECEIVERS}\n\n${exampleHop().replace("/ 4", "/ 8")}`,
  bad: `${RECEIVERS}\n\n${exampleHop()}`,
  check({ interference, memory, report }) {
    for (const harmed of memory.each(STEP, interference?.ofOthers() ?? [], harmedAt))
      if (harmed !== undefined) report(harmed.report, harmed.hop);
  },
};

const STEP = {};

interface Harmed {
  readonly report: Report;
  /** Which harms most. */
  readonly hop: string;
}

function harmedAt(at: InterferenceAt): Harmed | undefined {
  const fault = faultOf(at);
  const strongest = at.entries[0];
  if (fault === undefined || strongest === undefined || !isOwn(strongest.sender.of)) return undefined;
  const { of, place } = strongest.sender;
  const where: Address = address("hop", of.hop, place.site!);
  const { receiver } = at;
  const who = isOwn(receiver.of) ? receiver.key : foreignWords(receiver.of);
  const report = {
    at: where,
    about: `${receiver.key}`,
    severity: fault.severity,
    message: `the receiver of ${who} gets an I/N of ${decibels(fault.db)}${fault.asked}; most by ${entryWords(strongest)}`,
  };
  return { report, hop: of.hop };
}

function mendOthers(mending: Mending): readonly Fix[] {
  const { finding, interference } = mending;
  const at = interference && finding.about !== undefined ? atOther(interference, finding.about) : undefined;
  return at === undefined ? [] : lessInterference(mending, at);
}

function atOther(found: InterferenceFound, key: string): InterferenceAt | undefined {
  return found.ofOthers().find(({ receiver }) => receiver.key === key);
}

interface Fault {
  readonly db: number;
  readonly asked: string;
  readonly severity: "error" | "warning";
}

function faultOf({ terms, toNoiseDb, shortToNoiseDb }: InterferenceAt): Fault | undefined {
  const { towardOthersLongTermDb: long, towardOthersShortTermDb: short } = terms;
  if (long !== undefined && toNoiseDb !== undefined && toNoiseDb > long + ROUNDING_DB)
    return { db: toNoiseDb, asked: `, at most ${decibels(long)} is allowed`, severity: "error" };
  if (short !== undefined && shortToNoiseDb !== undefined && shortToNoiseDb > short + ROUNDING_DB)
    return {
      db: shortToNoiseDb,
      asked: ` for a short time, at most ${decibels(short)} is allowed`,
      severity: "error",
    };
  return long === undefined &&
    short === undefined &&
    toNoiseDb !== undefined &&
    toNoiseDb > USUAL_TOWARD_OTHERS_DB
    ? { db: toNoiseDb, asked: "", severity: "warning" }
    : undefined;
}
