/** What the findings about the text itself mean; the reference of rules is made from it and from the engine's rules. */
import type { TextRule } from "../facts/fact.js";

export interface TextRuleText {
  readonly title: string;
  readonly why: string;
  readonly fix: string;
}

export const TEXT_RULES: Readonly<Record<TextRule, TextRuleText>> = {
  syntax: {
    title: "The text must be readable as statements and blocks",
    why: "A brace, quote or comment that is not closed changes what the lines behind it belong to.",
    fix: "Close what is open, or remove what closes nothing.",
  },
  "unknown-word": {
    title: "A statement begins with a word the language knows at that place",
    why: "A misspelt word would otherwise be a fact that silently does not count.",
    fix: "Take the word that is offered, or one of those known in the block.",
  },
  misplaced: {
    title: "A statement stands in the block it belongs to",
    why: "The same fact means something only where the thing it describes is.",
    fix: "Move the line to the block that the message names.",
  },
  "missing-value": {
    title: "A statement has all the values it needs",
    why: "Half a fact decides nothing; what depends on it is not judged until it is complete.",
    fix: "Complete the line as in the example of the message.",
  },
  unfinished: {
    title: "What is still to be chosen is marked with ?",
    why: "A fix writes the lines that are missing; what stands in them is a decision, and is not made by the way.",
    fix: "Write what is decided in place of the ?.",
  },
  "unexpected-value": {
    title: "A statement has no values beyond its own",
    why: "What is written but not read would make the text say more than the design holds.",
    fix: "Remove it, or put the label before it that says what it is.",
  },
  "unit-missing": {
    title: "A quantity carries its unit",
    why: "A bare number is the oldest mistake in link planning: metres or kilometres, MHz or GHz.",
    fix: "Write one of the units that the message lists.",
  },
  "wrong-dimension": {
    title: "A quantity is of the dimension the fact asks for",
    why: "A gain where a loss belongs, or a length where a frequency belongs, is a slip that no budget survives.",
    fix: "Write a value in one of the units that the message lists.",
  },
  "value-range": {
    title: "A value is physically possible",
    why: "Latitude 95° or 0 GHz is a typing mistake, and everything computed from it would be wrong.",
    fix: "Mend the value; the message tells the limit.",
  },
  "unknown-choice": {
    title: "A choice is one of the words offered",
    why: "Words that mean two things in the trade are refused, so that the design cannot be read in two ways.",
    fix: "Write one of the words that the message lists.",
  },
  "doubled-fact": {
    title: "A fact is stated once in a block",
    why: "Of two answers to one question only one can hold.",
    fix: "Remove one of the two lines.",
  },
  "doubled-name": {
    title: "A name is declared once",
    why: "Whoever refers to it must mean one thing. The first in the order of files counts.",
    fix: "Rename or remove one of the two.",
  },
  "unknown-name": {
    title: "A name that is used is declared",
    why: "Without what it names, the hop cannot be judged.",
    fix: "Mend the name, or declare it in this design or in a catalogue the network names.",
  },
  "deceiving-name": {
    title: "A name is what it looks like",
    why: "A letter of another script, or a sign that nobody sees, makes a second name that readers take for the first.",
    fix: "Write the name anew, in letters of one script.",
  },
  "wrong-kind": {
    title: "A name is of the kind the fact asks for",
    why: "A site where an antenna belongs is a slip of the pen.",
    fix: "Name something of the kind that the message asks for.",
  },
  "ambiguous-name": {
    title: "A name means one thing",
    why: "Where a site and a hop may stand, a name that both bear decides nothing.",
    fix: "Rename one of the two, or name a place beside it.",
  },
  "template-used": {
    title: "A template is inherited, not installed",
    why: "A template holds what several entries share; it is nothing that can be ordered.",
    fix: "Name an entry made `like` the template.",
  },
  "inheritance-loop": {
    title: "An entry does not inherit from itself",
    why: "In a loop of `like` no entry is the first, and its facts have no owner.",
    fix: "Remove one `like` of the loop.",
  },
  "inheritance-deep": {
    title: "An entry inherits by way of few others",
    why: "Nobody can tell what an entry of a chain of dozens holds, and to find it out takes the longer the longer the chain.",
    fix: "Let the entry inherit from one nearer to the beginning, or state its facts.",
  },
  "unknown-mode": {
    title: "A mode is one of the radio's",
    why: "Rate, power and threshold come from the radio's own mode.",
    fix: "Write a mode that the radio has at that channel width.",
  },
  "unknown-channel": {
    title: "A channel is on its plan",
    why: "A frequency that no plan holds cannot be licensed.",
    fix: "Write a plan, width and number that exist, or declare your own plan.",
  },
  "hop-ends": {
    title: "A hop has two different ends",
    why: "A hop is two sites that face each other; nothing can be judged before both are named.",
    fix: "Name each end by its site: KELD { ... }.",
  },
  "demand-ends": {
    title: "A demand joins two different sites",
    why: "Without both ends there is no route, and nothing of the demand is judged.",
    fix: "Write from SITE to SITE, or from SITE to handover.",
  },
  "demand-figures": {
    title: "The figures of a demand fit together",
    why: "Of two figures that cannot both be meant one is wrong, and the network would be built for it.",
    fix: "Mend one of the two.",
  },
  "state-contradiction": {
    title: "What stands at one time fits together",
    why: "A hop that is built before its site, or hangs on one that is gone, is drawn and ordered and cannot be.",
    fix: "Mend the date of one of the two.",
  },
  "days-not-judged": {
    title: "A network changes on a hundred days at most",
    why: "On each day on which something is built or taken down the whole network is judged anew.",
    fix: "Let what is built together have one date, or judge the days that are left out with `hopwright check --on DATE`.",
  },
  "state-overdue": {
    title: "What was planned for a day that has passed is built, or has a new date",
    why: "From its day on what is planned counts as standing. A plan that slipped is judged, drawn and reported as if it were there.",
    fix: "Write `state built` with the day, or a new date.",
  },
  "many-networks": {
    title: "A design has one network",
    why: "Climate, terrain and defaults of a second network would hold for nobody knows which hops.",
    fix: "Merge the two, or put them in folders of their own.",
  },
  "network-share": {
    title: "What a design names lies on this machine, or where the design lies",
    why: "To look at a share of the network is to log in there. A design that came from somebody else could have you log in anywhere.",
    fix: "Copy the files to where the design lies, or connect the share as a drive and name the drive.",
  },
  "file-unreadable": {
    title: "A file of the design can be read",
    why: "What stands in it is missing from the design.",
    fix: "Mend or remove the file; the message tells the cause.",
  },
  "internal-fault": {
    title: "Every hop can be judged",
    why: "A fault of Hopwright itself: the hop is not judged, the rest of the design is.",
    fix: "Tell the maintainers, with the hop and the message; until then nothing is known of this hop.",
  },
};
