/** Pages on their way into a folder, in one format or several: for the commands that write pages. */
import { dirname, join } from "node:path";
import type { Page, Paper } from "../../shared/report/document/document.js";
import { CommandError } from "../command-error.js";
import type { PrintedBytes, ReportFormat } from "./print/format.js";
import { safe } from "./print/safe.js";
import type { ProgressLine } from "./progress.js";
import type { ReportRecord } from "./report-record.js";
import { note } from "./streams.js";

const PAPERS = ["A4", "Letter"] as const;

/** @throws CommandError with those that there are */
export function paperNamed(name: string | undefined): Paper["size"] {
  if (name === undefined) return undefined;
  const found = PAPERS.find((one) => one.toLowerCase() === name.toLowerCase());
  if (found) return found;
  throw new CommandError(`--paper ${safe(name)}: choose from ${PAPERS.join(", ")}`);
}

interface Ways {
  readonly formats: readonly ReportFormat[];
  /** In place of what the page asks for. */
  readonly paper: Paper["size"];
  readonly record: ReportRecord;
  readonly progress: ProgressLine;
  /** Throws for a folder that nothing may be written into. */
  refuse(folder: string): void;
}

export class WrittenPages {
  private count = 0;
  /** Signs that a font lacks, with the first file that has each. */
  private readonly missing = new Map<string, string>();

  /** Words in place of a picture, and why. */
  private unread: { readonly words: string; readonly reason: string } | undefined;

  constructor(
    private readonly out: string,
    private readonly ways: Ways,
  ) {}

  get pages(): number {
    return this.count;
  }

  async write(page: Page): Promise<void> {
    const { formats, paper, record, progress, refuse } = this.ways;
    const onPaper = paper === undefined ? page : { ...page, paper: { ...page.paper, size: paper } };
    for (const format of formats)
      for (const printed of await format.print(onPaper)) {
        refuse(dirname(join(this.out, printed.path)));
        record.write(printed.path, "text" in printed ? printed.text : printed.bytes);
        if ("bytes" in printed) this.noteLacks(printed);
      }
    progress.count(++this.count, "pages");
  }

  private noteLacks({ path, missing, unread, unreadReason = "it cannot be read" }: PrintedBytes): void {
    if (unread !== undefined) this.unread ??= { words: unread, reason: unreadReason };
    for (const sign of missing) if (!this.missing.has(sign)) this.missing.set(sign, path);
  }

  /** What a reader of the pages would not see by himself. */
  tell(): void {
    this.ways.progress.end();
    if (this.unread !== undefined)
      note(
        safe(
          `the picture of the letterhead is not put into a PDF, ${this.unread.reason}; in its place stands: ${this.unread.words}`,
        ),
      );
    if (this.missing.size === 0) return;
    const shown = [...this.missing].slice(0, MOST_SIGNS).map(([sign]) => `${sign} (${codeOf(sign)})`);
    const more = this.missing.size > MOST_SIGNS ? ` and ${this.missing.size - MOST_SIGNS} more` : "";
    const [first] = this.missing.values();
    note(
      safe(
        `the font of PDFs lacks ${shown.join(", ")}${more}: a box stands there, first in ${first}; HTML shows them`,
      ),
    );
  }
}

const MOST_SIGNS = 6;

function codeOf(sign: string): string {
  return `U+${sign.codePointAt(0)!.toString(16).toUpperCase().padStart(4, "0")}`;
}
