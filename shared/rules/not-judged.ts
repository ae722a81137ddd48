import { address } from "../design/address.js";
import type { Hop, UnformedHop } from "../design/design.js";
import type { RelatedPlace } from "../design/finding.js";
import type { Lack } from "../evaluate/account/lack.js";
import type { HopResult } from "../evaluate/account/result.js";
import { factsTold, factWords, lackClause } from "../words/lacks.js";
import { listed } from "../words/lists.js";
import { shown } from "../words/message.js";
import { askedOf, type Criterion } from "./asked.js";
import { comparison } from "./availability.js";
import { climateMissing } from "./climate-missing.js";
import { exampleHop } from "./example-preamble.js";
import { noTerrain } from "./no-terrain.js";
import type { HopRule, Report } from "./rule.js";
import { gapsHelp, groundFiles } from "./terrain-gap.js";

export const notJudged: HopRule = {
  scope: "hop",
  id: "not-judged",
  severity: "error",
  title: "What the objective asks must be judged",
  checks:
    "Whether there is a verdict on everything that the objective asks of the hop, also where it comes from the defaults. There is none where a fact is not stated, ground is void or missing, the climate says too little, or a method refuses its input or only bounds the figure. One finding lists all that is missing.",
  why: "What cannot be judged finds nothing, which reads as if all were well.",
  fix: "Supply what the message names, or accept with a reason that it stays open for now.",
  source: "common practice",
  needs: [],
  good: exampleHop(),
  bad: exampleHop({ tarn: "antenna DISH60-18\n    transmits low" }),
  check({ hop, result, criteria, has, leaveToCause, report }) {
    const untold = (lack: Lack) =>
      !lack.told && !CAUSES.some(({ rule, explains }) => has(rule) && explains(lack, hop));
    const open = criteria.filter(({ verdict }) => verdict === "open");
    const told = open.flatMap((one): Criterion[] => {
      const lacks = one.lacks.filter(untold);
      return lacks.length > 0 || one.lacks.length === 0 ? [{ ...one, lacks }] : [];
    });
    if (told.length === 0) {
      if (open.length > 0) leaveToCause();
      return;
    }
    const lacks = result.missing.filter((lack) => told.some((one) => one.lacks.includes(lack)));
    report({
      at: (lacks.length === 1 ? lacks[0]!.at : undefined) ?? address("hop", hop.name),
      about: address("hop", hop.name),
      message: `${subject(told)} not judged: ${reasons(lacks, result).join("; ")}`,
      help: helpFor(lacks, hop, result),
      related: places(lacks, hop, result),
      notJudged: told.map(({ rule }) => rule),
    });
  },
};

/** The same of a hop without two ends. */
export function unformedReport(hop: UnformedHop): Report | undefined {
  const asked = askedOf(hop);
  if (asked.length === 0) return undefined;
  const { name, siteNames, objective } = hop;
  const at = address("hop", name);
  return {
    at,
    about: at,
    message: `${subject(asked)} not judged: ${unformedWords(name, siteNames)}`,
    help: ADD_AN_END,
    related: [{ at: address("objective", objective.name), message: `objective ${objective.name}` }],
    notJudged: asked.map(({ rule }) => rule),
  };
}

/** For example `KELD-TARN has one end yet, KELD`. */
export function unformedWords(name: string, siteNames: readonly string[]): string {
  const [site] = siteNames;
  return `${name} has ${site === undefined ? "no end yet" : `one end yet, ${site}`}`;
}

export const ADD_AN_END = "add an end by its site's name, for example: KELD { antenna DISH60-18 at 24 m }";

function subject(criteria: readonly Pick<Criterion, "name">[]): string {
  return `${listed(criteria.map(({ name }) => name))} ${criteria.length > 1 ? "are" : "is"}`;
}

/** Findings that tell some of what is missing, each at its own place. */
const CAUSES: readonly { readonly rule: string; explains(lack: Lack, hop: Hop): boolean }[] = [
  {
    rule: "path-length",
    explains: ({ code }) => code === "terrain" || code === "refusal" || code === "bound",
  },
  {
    rule: "survey-unusable",
    explains: ({ code }, { surveyFile }) => code === "terrain" && surveyFile !== undefined,
  },
  { rule: "obstacle-off-path", explains: ({ code }) => code === "off path" },
  { rule: "both-ends-same-half", explains: ({ code }) => code === "no receiver" },
  { rule: "end-arrangement", explains: ({ code }) => code === "ends apart" },
  { rule: "coupler-missing", explains: ({ code }) => code === "no coupler" },
  { rule: "coupler-wrong-kind", explains: ({ code }) => code === "no coupler" },
  ...["frequency-outside-tuning", "antenna-out-of-band", "coupler-out-of-band", "feeder-out-of-band"].map(
    (rule) => ({ rule, explains: ({ code }: Lack) => code === "other band" }),
  ),
  { rule: "power-above-mode", explains: ({ code }) => code === "power not had" },
  {
    rule: "antenna-ports-short",
    explains: ({ fact }) => fact?.code === "further-antenna",
  },
  // Behind an obstruction the method of multipath does not apply.
  { rule: "clearance", explains: ({ code, of }) => code === "refusal" && of.includes("multipath") },
];

function reasons(lacks: readonly Lack[], { availability }: HopResult): string[] {
  const facts = lacks.flatMap(({ fact }) => fact ?? []);
  const others = lacks.filter(({ fact }) => fact === undefined);
  return [
    ...(facts.length > 0 ? [`${shown(factsTold(facts))} not stated`] : []),
    ...others.map((lack) => {
      const said = shown(lackClause(lack));
      return lack.code === "bound" && availability?.verdict === "open"
        ? `${said}: ${comparison(availability)}`
        : said;
    }),
  ];
}

function helpFor(lacks: readonly Lack[], hop: Hop, result: HopResult): string | undefined {
  const lacksOf = (code: Lack["code"]) => lacks.some((lack) => lack.code === code);
  const help = [
    lacksOf("terrain")
      ? result.profile
        ? gapsHelp(hop, result, result.profile.gaps)
        : noTerrain.fix
      : undefined,
    lacksOf("climate") ? climateMissing.fix : undefined,
  ].filter((one) => one !== undefined);
  return help.length > 0 ? help.join(" ") : undefined;
}

function places(lacks: readonly Lack[], { objective }: Hop, result: HopResult): RelatedPlace[] {
  const facts = lacks.flatMap(({ fact, at }) =>
    fact && at ? [{ at, message: shown(factWords(fact)) }] : [],
  );
  const ofGround = lacks.some(({ of }) => of.includes("profile")) ? groundFiles(result) : [];
  const asks = { at: address("objective", objective!.name), message: `objective ${objective!.name}` };
  return [...(lacks.length > 1 ? facts : []), ...ofGround, asks];
}
