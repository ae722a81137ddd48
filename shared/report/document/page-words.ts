/** Words that printers set beside what a page says, in the language of the page. */
import type { PageLanguage, Tone } from "./document.js";

interface PageWords {
  /** Each tone in a word. */
  readonly tones: Readonly<Record<Tone, string>>;
  /** Heads over key figures, where they are a table: figure, value, remark, finding. */
  readonly keyHeads: readonly [string, string, string, string];
  /** Sections that paper leaves out. */
  readonly leftOut: string;
  /** Beside the field that narrows a table. */
  readonly find: string;
  /** Between a rule and the place in the text. */
  readonly at: string;
  /** @param until as the page writes days; undefined: no end */
  accepted(reason: string | undefined, until: string | undefined): string;
}

export const PAGE_WORDS: Readonly<Record<PageLanguage, PageWords>> = {
  en: {
    tones: {
      good: "met",
      error: "error",
      warning: "warning",
      info: "remark",
      accepted: "accepted",
      unjudged: "not judged",
    },
    keyHeads: ["Figure", "Value", "Remark", "Finding"],
    leftOut: "On the screen alone",
    find: "Find by name",
    at: "at",
    accepted: (reason, until) =>
      `Accepted ${until === undefined ? "with no end" : `until ${until}`}${reason === undefined ? "." : `: ${reason}`}`,
  },
  de: {
    tones: {
      good: "erfüllt",
      error: "Fehler",
      warning: "Warnung",
      info: "Hinweis",
      accepted: "zugelassen",
      unjudged: "nicht beurteilt",
    },
    keyHeads: ["Größe", "Wert", "Bemerkung", "Befund"],
    leftOut: "Nur am Bildschirm",
    find: "Nach Namen suchen",
    at: "bei",
    accepted: (reason, until) =>
      `Zugelassen ${until === undefined ? "ohne Ende" : `bis ${until}`}${reason === undefined ? "." : `: ${reason}`}`,
  },
};

export function wordsOf({ language = "en" }: { readonly language?: PageLanguage }): PageWords {
  return PAGE_WORDS[language];
}
