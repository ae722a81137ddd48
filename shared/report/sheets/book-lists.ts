/** What a network lets pass, with reason and end, and what it sends without a licence. */
import type { Acceptance } from "../../design/acceptance.js";
import type { Design } from "../../design/design.js";
import { gigahertz } from "../../format/numbers.js";
import { asksForOne, type HeldHop as LicensedHop } from "../../licence/held.js";
import type { Inline, Section, TableRow } from "../document/document.js";
import { NONE } from "./book-asked.js";
import type { SheetWords } from "./words/sheet-words.js";

type Accepting = "hop" | "site" | "demand";

/** Every exception that the text states, whether it excuses something today or not. @param day ISO date, today's */
export function exceptionsSection(design: Design, day: string, words: SheetWords): Section {
  const { exceptions } = words.book;
  const all: readonly (readonly [Accepting, string, readonly Acceptance[]])[] = [
    ...[...design.hops.values()].map(({ name, accepts }) => ["hop", name, accepts] as const),
    ...[...(design.acceptedAt ?? [])].map(([name, accepts]) => ["site", name, accepts] as const),
    ...[...(design.demands?.values() ?? [])].map(({ name, accepts }) => ["demand", name, accepts] as const),
  ];
  const rows = all.flatMap(([kind, name, accepts]) =>
    accepts.map(
      ({ rule, reason, until }): TableRow => ({
        cells: [
          `${exceptions.kinds[kind]} ${name}`,
          ruleText(rule, words),
          reason ?? NONE,
          end(until, day, words),
        ],
      }),
    ),
  );
  return {
    id: "exceptions",
    title: exceptions.title,
    blocks: [
      rows.length === 0
        ? { type: "paragraph", text: exceptions.none }
        : {
            type: "table",
            columns: [
              { title: exceptions.about },
              { title: exceptions.what },
              { title: exceptions.reason },
              { title: exceptions.until },
            ],
            rows,
          },
    ],
  };
}

/** In words where sheets have some for the rule, and always as the text writes it. */
function ruleText(rule: string, { acceptance: { criteria } }: SheetWords): Inline {
  const code = { text: rule, mark: "code" } as const;
  return Object.hasOwn(criteria, rule) && criteria[rule] !== rule ? [`${criteria[rule]} `, code] : code;
}

/** Its last day counts. */
function end(until: string | undefined, day: string, words: SheetWords): Inline {
  const { exceptions } = words.book;
  if (until === undefined) return exceptions.noEnd;
  return until < day ? { text: exceptions.ended(words.day(until)), mark: "error" } : words.day(until);
}

/** Of hops that need a licence what they send without one. None where the design judges no licences. */
export function licencesSection(
  design: Design,
  licensed: readonly LicensedHop[],
  words: SheetWords,
): Section[] {
  const { licences } = words.book;
  if (design.licences === undefined && !design.licenceTerms?.required) return [];
  const asked = licensed.filter(({ hop }) => asksForOne(design, hop));
  const open = asked.flatMap(({ held }) => held.filter(({ licence }) => licence === undefined));
  const rows = open.map(
    ({ sent }): TableRow => ({
      cells: [
        sent.hop,
        sent.site,
        sent.farSite,
        words.figure(`${gigahertz(sent.frequencyHz)} GHz`),
        sent.polarization === undefined ? NONE : words.polarizations[sent.polarization],
        sent.emission ?? NONE,
      ],
    }),
  );
  const all = licensed.flatMap(({ held }) => held);
  const without = all.filter(({ licence }) => licence === undefined).length;
  const required = design.licenceTerms?.required === true;
  const { hop, from, to, frequency, polarization, emission } = licences;
  return [
    {
      id: "licences",
      title: licences.title,
      blocks: [
        { type: "paragraph", text: licences.told(asked.length, required, { without, all: all.length }) },
        ...(asked.length === 0
          ? []
          : [
              rows.length === 0
                ? { type: "paragraph" as const, text: licences.none }
                : {
                    type: "table" as const,
                    columns: [
                      { title: hop },
                      { title: from },
                      { title: to },
                      { title: frequency, align: "right" as const },
                      { title: polarization },
                      { title: emission },
                    ],
                    rows,
                  },
            ]),
      ],
    },
  ];
}
