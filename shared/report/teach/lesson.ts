/** A page that teaches: what it says and in which order, nothing of how it looks. */

export type LessonBlock =
  | { readonly type: "paragraph"; readonly text: string }
  | { readonly type: "list"; readonly items: readonly string[] }
  | {
      readonly type: "table";
      readonly columns: readonly string[];
      readonly rows: readonly (readonly string[])[];
    }
  /** Text of the language. */
  | { readonly type: "design"; readonly text: string }
  /** Rules by their identifier, with what each holds. */
  | { readonly type: "rules"; readonly rules: readonly { readonly id: string; readonly title: string }[] }
  /** A whole `<svg>` element; a printer that shows none leaves it out. */
  | { readonly type: "drawing"; readonly svg: string; readonly alt: string; readonly caption: string };

export interface LessonSection {
  readonly title: string;
  readonly blocks: readonly LessonBlock[];
}

export interface Lesson {
  readonly title: string;
  readonly subtitle?: string;
  readonly sections: readonly LessonSection[];
}

/** A section; nothing of it where it has nothing to say. */
export function sectionOf(title: string, blocks: readonly LessonBlock[]): LessonSection[] {
  const said = blocks.filter((block) => {
    if (block.type === "list") return block.items.length > 0;
    if (block.type === "table") return block.rows.length > 0;
    return block.type !== "rules" || block.rules.length > 0;
  });
  return said.length === 0 ? [] : [{ title, blocks: said }];
}

export function list(...items: readonly (string | undefined)[]): LessonBlock {
  return { type: "list", items: items.filter((item) => item !== undefined) };
}

export function paragraph(text: string): LessonBlock {
  return { type: "paragraph", text };
}

/** What every part and arrangement is told with. */
export const LESSON_CAUTION =
  "Planning aid: figures marked as common practice or from memory were not looked up anywhere. The data of the equipment that is ordered, the licence and the engineer who signs come first.";
