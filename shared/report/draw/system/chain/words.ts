/** What a chain says at each part and joint. */
import type { HopEnd } from "../../../../design/design.js";
import { unitWords } from "../../../../equipment/parts-list.js";
import { type Stand, standWords } from "../../../../equipment/stands.js";
import type { WiredPart } from "../../../../equipment/wiring/wiring.js";
import { dbi, dbm, decibels, fixed, frequency, metres } from "../../../../format/numbers.js";
import { elementMessage } from "../../../../words/elements.js";
import { shown } from "../../../../words/message.js";
import { branchName, joinedByMessage, lacksMessage } from "../../../../words/wiring.js";
import { type Words, whole } from "../fit.js";
import type { ChainLine, HopChain, JointStep, PartStep } from "./chain.js";

/** A line of a drawing; one that is a level has an arrow before it. */
export interface ChainWords extends Words {
  readonly level?: "send" | "receive";
  /** In place of the text where that has no room. */
  readonly brief?: string;
}

/** Where the words need more than the line itself. */
export interface Around {
  readonly hop: string;
  readonly end: HopEnd;
  /** Antennas of the end, in the order in which branches count them. */
  readonly stands: readonly Stand[];
  readonly cableNumber: (step: JointStep) => string | undefined;
}

const strong = (text: string): ChainWords => ({ text, style: "strong" });
const plain = (text: string): ChainWords => ({ text });
const quiet = (text: string): ChainWords => ({ text, style: "quiet" });
const some = (...words: readonly (ChainWords | undefined)[]) => words.filter((word) => word !== undefined);

const level = (way: "send" | "receive", levelDbm: number): ChainWords => ({
  text: dbm(levelDbm),
  brief: fixed(levelDbm, 1),
  level: way,
});

const PROPOSED = "proposed";

export function indoorWords({ part }: PartStep): ChainWords[] {
  const { name, kind, place, proposed } = part;
  const where =
    place?.slot === undefined
      ? `chassis ${place?.chassis ?? ""}`
      : `chassis ${place.chassis}, slot ${place.slot}`;
  return some(strong(name ?? kind), plain(where), proposed && quiet(`slot ${PROPOSED}`));
}

export function portWords({ outer }: PartStep): ChainWords[] {
  return outer === undefined ? [] : [plain(`port ${outer}`)];
}

export function unitBoxWords(
  { branch, unit, xpicPair, lacks, feed }: ChainLine,
  part: WiredPart,
): ChainWords[] {
  const ordered = unitWords(unit);
  const name = branchName(branch.name);
  return some(
    strong(name),
    plain(part.name ?? "radio not stated"),
    unit.transmitHz === undefined ? quiet("frequency not known") : plain(frequency(unit.transmitHz)),
    unit.channel === undefined ? undefined : plain(`channel ${unit.channel}`),
    unit.polarization === undefined ? quiet("polarization not stated") : plain(unit.polarization),
    ordered === undefined ? undefined : plain(ordered),
    xpicPair === undefined ? undefined : plain(`XPIC pair ${xpicPair}`),
    branch.radiates ? undefined : plain("waits, muted"),
    feed && plain(`-48 V: ${shown(joinedByMessage(feed.by))}${feed.proposed ? `, ${PROPOSED}` : ""}`),
    ...lacks.filter((lack) => lack === "arm").map((lack) => plain(shown(lacksMessage(lack)))),
  );
}

export function couplerWords({ name, title, ports }: WiredPart): ChainWords[] {
  const unused = ports.filter(({ terminated }) => terminated).length;
  return some(
    strong(name ?? "coupler"),
    title === undefined ? undefined : quiet(title),
    unused === 0 ? undefined : quiet(`${unused} ${unused === 1 ? "arm" : "arms"} unused, terminated`),
  );
}

export function branchingWords(): ChainWords[] {
  return [strong("branching network")];
}

/** Port of a branch on a part that joins several, and what it loses there. */
export function armWords(step: PartStep, { branch }: ChainLine): ChainWords[] {
  const { inner = "", part } = step;
  const port = part.kind === "branching" ? `position ${branch.position}` : inner.replaceAll(", ", " ");
  return some(port === "" ? undefined : plain(port), ...lossWords(step));
}

export function antennaWords(step: PartStep, line: ChainLine, { hop, stands }: Around): ChainWords[] {
  const { part } = step;
  const stand = stands[line.branch.antenna - 1];
  const height = stand?.heightM === undefined ? "" : ` at ${whole(metres(stand.heightM))}`;
  return some(
    strong(part.name ?? "antenna"),
    plain(`${stand ? standWords(stand) : "antenna"}${height}`),
    ...gainWords(step),
    part.of === undefined || part.of.hop === hop ? undefined : plain(`of hop ${part.of.hop}, shared`),
  );
}

function gainWords({ send, receive }: PartStep): ChainWords[] {
  const [out, back] = [send, receive].map(({ passed: [first] }) => first && dbi(first.changeDb));
  if (out === back) return out === undefined ? [] : [plain(out)];
  return some(
    out === undefined ? undefined : { text: out, level: "send" as const },
    back === undefined ? undefined : { text: back, level: "receive" as const },
  );
}

/** Port of a branch on its antenna, and what it radiates. */
export function radiatedWords({ part, inner, send }: PartStep): ChainWords[] {
  return some(
    part.ports.length < 2 || inner === undefined ? undefined : plain(inner),
    ...(send.levelDbm === undefined ? [] : [plain("EIRP"), level("send", send.levelDbm)]),
  );
}

export function levelWords(sendDbm: number | undefined, receiveDbm: number | undefined): ChainWords[] {
  return some(
    sendDbm === undefined ? undefined : level("send", sendDbm),
    receiveDbm === undefined ? undefined : level("receive", receiveDbm),
  );
}

export function jointWords(step: JointStep, { cableNumber }: Around): ChainWords[] {
  const number = cableNumber(step);
  const { by, proposed } = step.joint;
  const words = shown(joinedByMessage(by));
  return some(
    number === undefined ? undefined : strong(number),
    by.kind === "flange" ? quiet(words) : plain(words),
    ...lossWords(step),
    proposed ? quiet(PROPOSED) : undefined,
  );
}

/** Both directions in one line where they lose the same; what is no loss of the thing itself is named. */
function lossWords({ send, receive }: Pick<JointStep, "send" | "receive">): ChainWords[] {
  const count = Math.max(send.passed.length, receive.passed.length);
  return Array.from({ length: count }, (_, index) => {
    const [out, back] = [send.passed[index], receive.passed.at(-1 - index)];
    const told = out ?? back!;
    const isOwn = ["feeder", "guide-to-choose", "coupler", "branching-network"].includes(told.passes.code);
    const name = isOwn ? "" : `${shown(elementMessage(told.passes).name)} `;
    const [one, other] = [out && decibels(out.changeDb), back && decibels(back.changeDb)];
    if (one === other) return [plain(`${name}${one}`)];
    return some(
      one === undefined ? undefined : { text: `${name}${one}`, level: "send" as const },
      other === undefined ? undefined : { text: `${name}${other}`, level: "receive" as const },
    );
  }).flat();
}

export function lackWords(line: ChainLine): ChainWords[] {
  return line.lacks.map((lack) => plain(shown(lacksMessage(lack))));
}

/** What lies between the antennas, a line for each direction. */
export function airWords({ air, ends }: HopChain, continued: boolean): ChainWords[] {
  if (continued) return [quiet("the same path")];
  if (air.length === 0) return [plain(`path ${ends[0].site} to ${ends[1].site}: no level is known`)];
  return air.map(({ from, to, frequencyHz, losses }) => {
    const told = losses.map(({ passes, changeDb }) =>
      whole(`${shown(elementMessage(passes).name)} ${decibels(changeDb)}`),
    );
    return plain(`${from} to ${to}, ${whole(frequency(frequencyHz))}: ${told.join(", ")}`);
  });
}

/** Behind the name of a site whose first branches stand above. */
export function continuedWords(more: number): string {
  return `, ${more} more`;
}
