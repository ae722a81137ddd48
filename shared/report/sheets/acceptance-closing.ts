/** What an acceptance ends with: exceptions, open points, checks on site, and places to sign. */
import type { Block, Inline, ReportFinding, Section } from "../document/document.js";
import type { HopSheetInput } from "./hop-facts.js";
import { hasBothPolarizations, hasWaiting } from "./level-words.js";
import type { SheetWords } from "./words/sheet-words.js";

export function exceptionsSection(findings: readonly ReportFinding[], words: SheetWords): Section {
  const { acceptance, day } = words;
  const accepted = findings.filter((one) => one.accepted !== undefined);
  const rows = accepted.map(({ rule, message, accepted: why }) => ({
    cells: [
      { text: rule, mark: "code" } as Inline,
      message,
      why?.reason ?? "–",
      why?.until === undefined ? acceptance.noEnd : day(why.until),
    ],
  }));
  const blocks: Block[] =
    rows.length === 0
      ? [{ type: "paragraph", text: acceptance.noExceptions }]
      : [
          { type: "paragraph", text: acceptance.exceptionsTold },
          {
            type: "table",
            columns: [
              { title: acceptance.rule },
              { title: acceptance.finding },
              { title: acceptance.reason },
              { title: acceptance.until },
            ],
            rows,
          },
        ];
  return { id: "exceptions", title: acceptance.exceptions, blocks };
}

/** Errors and warnings that nobody has accepted. */
export function openSection(findings: readonly ReportFinding[], words: SheetWords): Section {
  const { acceptance } = words;
  const open = findings.filter((one) => one.accepted === undefined && one.severity !== "info");
  const blocks: Block[] =
    open.length === 0
      ? [{ type: "paragraph", text: acceptance.noOpen }]
      : [
          {
            type: "table",
            columns: [{ title: acceptance.rule }, { title: acceptance.finding }],
            rows: open.map(({ rule, message }) => ({
              cells: [{ text: rule, mark: "code" } as Inline, message],
            })),
          },
        ];
  return { id: "open", title: acceptance.open, blocks };
}

/** A box an end for each check; common practice, no source. */
export function checksSection({ hop, words }: Pick<HopSheetInput, "hop" | "words">): Section {
  const { acceptance } = words;
  const checks = [
    ...acceptance.checks,
    ...(hasWaiting(hop) ? [acceptance.switchCheck] : []),
    ...(hasBothPolarizations(hop) ? [acceptance.polarizationCheck] : []),
  ];
  return {
    id: "checks",
    title: acceptance.checksTitle,
    together: true,
    blocks: [
      { type: "paragraph", text: acceptance.checksTold },
      {
        type: "table",
        columns: [
          { title: acceptance.check },
          ...hop.ends.map(({ site }) => ({ title: site.name, fill: true as const })),
          { title: acceptance.initials, fill: true },
        ],
        rows: checks.map((check) => ({ cells: [check, "", "", ""] })),
      },
    ],
  };
}

/** Lines for what is agreed on site. */
const AGREED_LINES = 4;

export function signatures({ words }: Pick<HopSheetInput, "words">): Section {
  const { acceptance, common } = words;
  return {
    id: "signatures",
    title: acceptance.signatures,
    together: true,
    blocks: [
      {
        type: "table",
        caption: acceptance.agreed,
        columns: [
          { title: "", align: "right" },
          ...[acceptance.agreedWhat, acceptance.agreedWho, acceptance.until].map((title) => ({
            title,
            fill: true as const,
          })),
        ],
        rows: Array.from({ length: AGREED_LINES }, (_, at) => ({ cells: [String(at + 1), "", "", ""] })),
      },
      {
        type: "signatures",
        places: acceptance.roles.map((role) => ({
          role,
          fields: [common.name, common.date, common.signature],
        })),
      },
    ],
  };
}
