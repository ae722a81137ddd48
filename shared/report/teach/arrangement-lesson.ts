/** An arrangement as it is taught: what each end needs, what it protects, what it costs, how it is written, what judges it. */
import type { Wiring } from "../../equipment/wiring/wiring.js";
import { decibels } from "../../format/numbers.js";
import { partnersOf } from "../../radio/arrangement-pairs.js";
import type { ArrangementFacts } from "../../radio/arrangements.js";
import { RULES } from "../../rules/index.js";
import { SAFETY } from "../pages/cautions.js";
import { arrangementExample } from "./arrangement-example.js";
import {
  AMBIGUOUS,
  COMMON_PARTS,
  COUPLER_TITLES,
  ONE_END_WORDS,
  PROTECTION_WORDS,
} from "./arrangement-words.js";
import { type BranchingCost, branchingCosts, type Split, symbolWords } from "./branching-costs.js";
import { joinedLines } from "./joined-lines.js";
import {
  LESSON_CAUTION,
  type Lesson,
  type LessonBlock,
  type LessonSection,
  list,
  paragraph,
  sectionOf,
} from "./lesson.js";

/** What the example of an arrangement comes to when it is read and joined. */
export interface ArrangementShown {
  /** Of one of its ends. */
  readonly wiring: Wiring;
  /** Undefined: the joints in words stand alone. */
  readonly drawing?: { readonly svg: string; readonly alt: string; readonly caption: string };
}

export function arrangementLesson(facts: ArrangementFacts, shown: ArrangementShown): Lesson {
  const { name, title, protects, doesNotProtect } = facts;
  return {
    title: name,
    subtitle: `${title[0]!.toUpperCase()}${title.slice(1)}.`,
    sections: [
      ...sectionOf("What each end needs", [needsTable(facts), paragraph(COUNTS_FROM)]),
      ...sectionOf("How it is joined", drawn(shown)),
      ...sectionOf("What it protects", [
        list(
          ...protects.map((one) => `Protects ${one}.`),
          ...doesNotProtect.map((one) => `Does not protect ${one}.`),
        ),
        paragraph(PROTECTION_WORDS[facts.protection]),
        paragraph(COMMON_PARTS),
      ]),
      ...costs(facts),
      ...sectionOf("At one end only", oneEnd(facts)),
      ...sectionOf("How it is written", [
        { type: "design", text: arrangementExample(facts) },
        paragraph("Sites, objective and catalogue are those of all these examples; everything is invented."),
      ]),
      ...sectionOf("Rules that judge it", [
        { type: "rules", rules: [...RULES.values()].filter((rule) => rule.arrangements?.(facts)) },
        paragraph("Beside them stand the rules that judge every hop: path, levels, channel, objective."),
      ]),
      ...sectionOf("Words that mislead", [
        list(...AMBIGUOUS.filter((one) => one.of(facts)).map(({ words, text }) => `"${words}": ${text}`)),
      ]),
      ...sectionOf("Cautions", [paragraph(LESSON_CAUTION), list(...SAFETY)]),
    ],
  };
}

const COUNTS_FROM = "Counts are common practice of the trade.";

function needsTable(facts: ArrangementFacts): LessonBlock {
  const { construction, transceivers, radiating, coupler, couplers, antennas, ifCables, xpicPairs } = facts;
  const { workingCarriers, frequencyPairs, polarizations, spaceDiversity } = facts;
  const units = construction === "all-indoor" ? "transceivers in the rack" : `${construction} units`;
  const kind =
    polarizations === 2 ? "dual-polarized where both polarizations meet in it" : "single-polarized";
  const apart = spaceDiversity && antennas > 1 ? ", at different heights" : "";
  const rows: (readonly [string, string])[] = [
    [units, String(transceivers)],
    ["of them on the air in the normal state", String(radiating)],
    ["antennas", `${antennas}, ${kind}${apart}`],
    ["couplers", coupler === undefined ? "none" : `${couplers}, ${COUPLER_TITLES[coupler]}`],
    ...(ifCables > 0 ? [["IF cables and IF ports, one for each unit", String(ifCables)] as const] : []),
    ...(construction === "all-outdoor"
      ? [["traffic ports and cables with power or fibre, one for each unit", String(transceivers)] as const]
      : []),
    ...(construction === "all-indoor"
      ? [["branching networks, and a long waveguide to each antenna", String(antennas)] as const]
      : []),
    ...(xpicPairs > 0
      ? [["pairs of ports whose receivers cancel each other", String(xpicPairs)] as const]
      : []),
    ["working carriers of the hop", String(workingCarriers)],
    ["frequency pairs of the hop", String(frequencyPairs)],
    ["polarizations of the hop", String(polarizations)],
  ];
  return { type: "table", columns: ["what", "how many"], rows };
}

function drawn({ wiring, drawing }: ArrangementShown): LessonBlock[] {
  return [
    ...(drawing === undefined ? [] : [{ type: "drawing", ...drawing } as const]),
    paragraph(`From the port indoors to the antenna, at ${wiring.site} of the example below:`),
    list(...joinedLines(wiring)),
  ];
}

const SPLITS: readonly Split[] = ["equal", "unequal"];

function costs(facts: ArrangementFacts): LessonSection[] {
  const splits = facts.coupler === undefined || facts.coupler === "omt" ? (["equal"] as const) : SPLITS;
  const rows = splits.flatMap((split) =>
    branchingCosts(facts, split).map(({ state, formula, lossDb, paths }) => [
      ...(splits.length > 1 ? [split] : []),
      state,
      String(paths),
      formula === "" ? "nothing" : formula,
      decibels(lossDb, 1),
    ]),
  );
  const symbols = [...new Set(rows.flatMap((row) => row.at(-2)!.split("+")))].filter(
    (one) => one !== "nothing",
  );
  const guide =
    facts.construction === "all-indoor"
      ? "To each end comes the long waveguide to the antenna: its length times its loss."
      : "To each end comes the flexible waveguide where a unit stands apart from its antenna: usually 0.1 to 0.5 dB below 15 GHz, 0.5 to 1.5 dB above.";
  return sectionOf("What it costs in dB", [
    {
      type: "table",
      columns: [...(splits.length > 1 ? ["coupler"] : []), "state", "paths", "both ends together", "loss"],
      rows,
    },
    list(...symbols.map((symbol) => `${symbol}: ${symbolWords(symbol)}.`)),
    paragraph(
      `${symbols.length === 0 ? "Nothing joins the units, so no branching loses anything. " : ""}${guide} Losses are common practice, from memory, unconfirmed, but for the 3.01 dB; a design counts those of its catalogue.`,
    ),
  ]);
}

/** What the other end may be built as instead; nothing where both have to be alike. */
function oneEnd(facts: ArrangementFacts): LessonBlock[] {
  const partners = partnersOf(facts);
  if (partners.length === 0)
    return [
      paragraph(`Both ends are built alike: no other arrangement has the same carriers as ${facts.name}.`),
    ];
  const loses = (costs: readonly BranchingCost[]) =>
    costs
      .filter(({ state }) => state === "normal")
      .map(({ formula, lossDb }) => (formula === "" ? "nothing" : `${formula}, ${decibels(lossDb, 1)}`))
      .join("; ");
  const rows = partners.map((far) => [
    far.name,
    loses(branchingCosts(facts, "equal", far)),
    loses(branchingCosts(far, "equal", facts)),
  ]);
  const symbols = partners.flatMap((far) =>
    branchingCosts(facts, "equal", far).flatMap(({ formula }) => formula.split("+").filter(Boolean)),
  );
  return [
    paragraph(
      `An end states an \`arrangement\` of its own within its block where it is built otherwise than the other; it has to share what goes over the air. With ${facts.name} at one end, the other may be:`,
    ),
    {
      type: "table",
      columns: ["the other end", "normal state, sent from here", "normal state, received here"],
      rows,
    },
    ...(symbols.length === 0
      ? []
      : [list(...[...new Set(symbols)].map((symbol) => `${symbol}: ${symbolWords(symbol)}.`))]),
    paragraph("With equal couplers; waveguides and feeders come to it."),
    paragraph(ONE_END_WORDS),
  ];
}
