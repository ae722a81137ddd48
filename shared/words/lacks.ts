/** What could not be computed, and why: clauses and sentences. A code without words does not compile. */
import type { FactCode, FactName, Lack, LackReason, ModeRefused, Step } from "../evaluate/account/lack.js";
import { NOT_COUNTED } from "../evaluate/account/lack.js";
import { frequency, kilometres, outage } from "../format/numbers.js";
import { gapsTold } from "./gaps.js";
import { listed } from "./lists.js";
import { type Message, message } from "./message.js";
import { leftOutWords } from "./notes.js";
import { refusalWords } from "./remarks.js";

type ReasonOf<C extends LackReason["code"]> = Extract<LackReason, { readonly code: C }>;

/** Words of one code, as a clause: `the climate gives no rain rate at 0.01 % of the year`. */
type LackWords = { readonly [C in LackReason["code"]]: (reason: ReasonOf<C>, lack: Lack) => string };

const LACK_WORDS: LackWords = {
  "not-stated": (_, { fact }) => `the ${fact === undefined ? "fact" : factText(fact)} is not stated`,
  "beyond-reason": ({ what }) => `${what} is beyond reason and left out`,
  unusable: ({ property, site, open }) =>
    `${property === "at" ? `the position of ${site}` : placed(property, site)} ${open ? "is still to be chosen" : "is stated and cannot be used"}`,
  "channel-open": ({ number, count }) =>
    `the channel number is not stated (figures are those of channel ${number}, the worst of ${count})`,
  "channel-unknown": () => "the channel is not known, so that its frequencies are not either",
  refused: ({ reason, of }) =>
    `${of === undefined ? "" : REFUSED_OF[of.figure](of)}${clause(refusalWords(reason))}`,
  "evaluation-failed": ({ hop, why }) => `${hop} cannot be judged, by a fault of hopwright itself: ${why}`,

  "latitude-beyond-pole": () => "a latitude lies beyond 90 degrees",
  "same-place": ({ sites: [one, other] }) => `${one} and ${other} stand at the same place`,
  "ground-level-unknown": ({ site, of }) => `the ground level of ${site} is neither stated nor in the ${of}`,
  "no-profile": ({ why }) => why ?? "there is no terrain profile of the path",
  "profile-of-other-length": ({ profileM, pathM }) =>
    `the profile is ${kilometres(profileM)} long, the path ${kilometres(pathM)}`,
  "heights-unknown": ({ of, gaps }) => `there are no heights ${gapsTold(gaps, of)}`,
  "no-height-known": () => "no height of the profile is known",
  "ground-under-obstacle-unknown": ({ obstacle }) => `the ground under ${obstacle} is not known`,
  "mean-terrain-unknown": () => "the mean terrain height is not known without a profile",
  "obstacle-off-path": ({ obstacle }) => `"${obstacle}" stands off the path and is not counted`,

  "mode-without-rate": ({ modulation }) => `mode ${modulation} has no rate in the catalogue`,
  "mode-without-power": ({ modulation, site }) =>
    `mode ${modulation} has no transmit power, neither in the catalogue nor at ${site}`,
  "mode-without-threshold": ({ modulation }) =>
    `mode ${modulation} has neither a threshold nor a required SNR with a noise figure`,
  "coupler-without-loss": ({ coupler, site }) => `coupler ${coupler} at ${site} has no loss in the catalogue`,
  "feeder-without-loss": ({ feeder, site }) => `feeder ${feeder} at ${site} has no loss in the catalogue`,
  "antenna-without-gain": ({ antenna, site }) =>
    `antenna ${antenna} at ${site} has neither gain nor diameter in the catalogue`,
  "line-not-stated": ({ site }) => `the feeder of the all-indoor radio at ${site} is not stated`,
  "guide-not-stated": ({ site, aboveHz }) =>
    `the waveguide at ${site} is not stated, and above ${frequency(aboveHz)} none is estimated`,
  "transmit-alike": ({ sites: [one, other] }) =>
    `${one} and ${other} transmit alike, so that neither receives the other`,
  "arrangement-apart": ({ site, own, other }) =>
    `${own} at ${site} does not work with ${other} at the other end, and counts as ${other}`,
  "part-of-other-band": ({ part, site, frequencyHz }) =>
    `${part} at ${site} is not for ${frequency(frequencyHz)}, and what it does there is not known`,
  "power-above-mode": ({ site, modulation }) =>
    `the level counts more power at ${site} than ${modulation} has`,
  "units-not-joined": ({ site, coupler, property }) => {
    const which = property === undefined ? "" : ` to the ${property.replace("-", " ")}`;
    return coupler === undefined
      ? `what joins the units${which} at ${site} is not stated, and its loss not in the level`
      : `${coupler} at ${site} cannot join the units${which}, and what could is not in the level`;
  },
  "no-diffraction-figure": ({ further }) =>
    `the method of diffraction gives no figure for ${further ? "a ray of further antennas" : "this profile"}`,

  "no-gradients": ({ needs }) =>
    needs === "dN1"
      ? "the preceding method needs dN1 in the climate"
      : "the current method needs logK and dN75 in the climate",
  "no-rain-rate": () => "the climate gives no rain rate at 0.01 % of the year",
  "rain-rate-elsewhere": ({ timePercent }) =>
    `the rain rate is stated at ${outage(timePercent)} of the year, the method needs it at 0.01 %`,
  "law-of-rain-ends": ({ atPercent }) =>
    `the law of rain ends at ${outage(atPercent)} of the year and cannot tell`,
  "rain-turned-from-slant": () =>
    "measured rain is turned from horizontal to vertical or back only, not to 45 degrees",
  "rain-of-other-polarization": () =>
    "the measured rain is of the other polarization, whose scaling is left out",
  "method-left-out": ({ method }) => `${leftOutWords(method)} is left out, since it is not checked`,

  "no-mtbf": ({ radio }) => `${radio} states no mtbf`,
  "no-repair-time": () => "the hop states no repair-time",
  "failures-unknown": () => "the failures of equipment are not known for this hop",
};

const REFUSED_OF: Readonly<Record<ModeRefused["figure"], (of: ModeRefused) => string>> = {
  "selective-fading": ({ modulation }) => `selective fading of ${modulation}: `,
  "cross-polar": ({ modulation }) => `${modulation}: `,
};

const FACTS: { readonly [C in FactCode]: (fact: FactName) => string } = {
  position: () => "position",
  radio: () => "radio",
  mode: () => "mode",
  "transmit-frequency": () => "transmit frequency",
  polarization: () => "polarization",
  antenna: () => "antenna",
  "antenna-height": () => "antenna height",
  "feeder-length": () => "feeder length",
  "repair-time": () => "repair-time",
  waveguide: () => "waveguide",
  "further-antenna": ({ property = "further antenna" }) => property.replace("-", " "),
  "further-antenna-height": ({ property = "further antenna" }) =>
    `height of the ${property.replace("-", " ")}`,
};

const HEADINGS: Readonly<Record<Step, string>> = {
  path: "Path",
  heights: "Heights",
  zone: "Clearance",
  profile: "Ground",
  "further antennas": "Clearance of further antennas",
  level: "Level",
  standby: "Level on standby",
  threshold: "Margin",
  rain: "Rain outage",
  multipath: "Multipath outage",
  "cross-polar": "Cross-polar outage",
  capacity: "Capacity",
  "link availability": "Availability of the link",
  "link quality": "Severely errored seconds",
};

/** As a clause. */
export function lackClause(lack: Lack): Message {
  return message(clauseText(lack));
}

/** As a sentence, headed by what it costs unless the clause itself says enough. */
export function lackSentence(lack: Lack): Message {
  const { code, of } = lack;
  const said = clauseText(lack);
  const step = of[0];
  if (code === "fact" || NOT_COUNTED.has(code) || step === undefined)
    return message(`${said[0]?.toUpperCase()}${said.slice(1)}.`);
  return message(`${HEADINGS[step]}: ${said}.`);
}

/** For example `antenna height at TARN`. */
export function factWords(fact: FactName): Message {
  return message(factText(fact));
}

/**
 * Facts in words, those of the same sites together: `radio, polarization, antenna and antenna height at KELD and TARN`.
 */
export function factsTold(facts: readonly FactName[]): Message {
  const byName = [...Map.groupBy(facts, ({ code, property }) => `${code} ${property ?? ""}`).values()].map(
    (same) => ({
      fact: same[0]!,
      sites: same.flatMap(({ site }) => site ?? []),
    }),
  );
  const groups = Map.groupBy(byName, ({ fact: { code }, sites }) =>
    code === "position" ? code : sites.join(" "),
  );
  return message(
    [...groups.values()]
      .flatMap((group) => {
        const names = group.map(({ fact }) => FACTS[fact.code](fact));
        const [{ fact, sites }] = group as [(typeof group)[0], ...typeof group];
        return sites.length === 0 ? names : [placed(listed(names), sites.join(" and "), fact.code)];
      })
      .join(", "),
  );
}

function clauseText(lack: Lack): string {
  return (LACK_WORDS[lack.reason.code] as (reason: LackReason, lack: Lack) => string)(lack.reason, lack);
}

function factText(fact: FactName): string {
  return placed(FACTS[fact.code](fact), fact.site, fact.code);
}

function placed(name: string, site: string | undefined, code?: FactCode): string {
  return site === undefined ? name : `${name} ${code === "position" ? "of" : "at"} ${site}`;
}

function clause(text: string): string {
  return text.replace(/\.$/, "");
}
