/** What the sheets of a whole design have in common. */
import type { Hop, Polarization } from "../../../design/design.js";
import type { Inline, Page, Section } from "../../document/document.js";
import { errorCountSection } from "../design-errors.js";
import type { SheetWords } from "../words/sheet-words.js";

export interface DeskInput {
  /** Of the design. */
  readonly title?: string;
  /** How many errors stand in the design. */
  readonly errors: number;
  readonly name: string;
  readonly words: SheetWords;
  readonly colophon: string;
}

export function deskPage(
  { title: design, errors, name, words, colophon }: DeskInput,
  title: string,
  sections: readonly Section[],
): Page {
  return {
    name,
    title,
    ...(design !== undefined && { subtitle: `${words.common.designOf}: ${design}` }),
    language: words.language,
    keyFigures: [],
    sections: [...errorCountSection(errors, words), ...sections],
    colophon,
  };
}

/** Both, where a hop has a title of its own. */
export function hopName({ name, title }: Hop): string {
  return title === undefined || title === name ? name : `${name}, ${title}`;
}

export function siteName({ name, title }: Hop["ends"][number]["site"]): string {
  return !title || title === name ? name : `${name}, ${title}`;
}

/** Empty where the hop states none: it stands at all times. */
export function stateText({ state }: Hop, { desk, day }: SheetWords): string {
  return state === undefined ? "" : desk.state(state.word, state.date && day(state.date));
}

export function polarizationText(
  polarizations: readonly Polarization[],
  { polarizations: said, common }: SheetWords,
): Inline {
  if (polarizations.length === 0) return { text: common.notStated, mark: "unjudged" };
  return polarizations.map((one) => said[one]).join(", ");
}

/** `1, 3 to 8` as `1, 3–8`: numbers in order. */
export function numberRanges(numbers: readonly number[]): string {
  const ranges: [number, number][] = [];
  for (const number of numbers) {
    const last = ranges.at(-1);
    if (last && last[1] === number - 1) last[1] = number;
    else ranges.push([number, number]);
  }
  return ranges.map(([from, to]) => (from === to ? `${from}` : `${from}–${to}`)).join(", ");
}
