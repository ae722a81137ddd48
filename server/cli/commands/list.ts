/** `list`: what a design knows, for a spreadsheet, a map or a program. */
import { existsSync } from "node:fs";
import { makeList } from "../../../shared/lists/subjects/index.js";
import { type ListSubject, SUBJECTS } from "../../../shared/lists/subjects/list.js";
import type { ListedDesign, ListedFinding } from "../../../shared/lists/subjects/listed-design.js";
import { ofSite } from "../../../shared/lists/subjects/of-site.js";
import { CommandError, EXIT } from "../../command-error.js";
import { writeBytes } from "../../files/write-whole.js";
import { type JudgedDesign, judgeFolder } from "../../findings/judged-folder.js";
import { noSuchSite } from "../../findings/one-site.js";
import { shownFrom } from "../../findings/paths.js";
import { holdsOn } from "../../findings/stages.js";
import { hopsOf, shownTime } from "../../findings/summary.js";
import { standingLast } from "../../lists/standing-last.js";
import { FORMATS, formatNamed } from "../formats.js";
import type { Listed, ListFormat } from "../print/format.js";
import { noteTime } from "../print/note-time.js";
import { safe } from "../print/safe.js";
import { tellUnreadable } from "../print/unreadable.js";
import { progressLine } from "../progress.js";
import { note, print } from "../streams.js";

export interface ListOptions {
  readonly format: string;
  readonly out?: string;
  /** Rows of it alone. */
  readonly site?: string;
  readonly today: string;
  /** The day that is looked at; left out: all that is planned stands. */
  readonly on?: string;
}

/** What a map can show. */
const PLACED: ReadonlySet<ListSubject> = new Set(["sites", "hops", "ends"]);

/** @returns the exit status */
export async function list(asked: string, folder: string, options: ListOptions): Promise<number> {
  const { out, today, on } = options;
  const format = formatNamed(FORMATS.list, options.format);
  const subjects = subjectsOf(asked, format);
  if (format.bytes && out === undefined && process.stdout.isTTY)
    throw new CommandError("a workbook is no text for a terminal; say --out FILE.xlsx");
  if (out !== undefined && existsSync(out))
    throw new CommandError(`${out}: it is there already and is not replaced`);
  const progress = progressLine();
  const judged = await judgeFolder(folder, { today, pace: progress.pace, times: { on } });
  progress.end();
  const unreadable = tellUnreadable(judged);
  const [design, other] = judged.designs;
  if (!design) throw new CommandError(`${folder}: there is no design in this folder that can be read`);
  if (other)
    throw new CommandError(
      `${folder}: there are ${judged.designs.length} designs in this folder; name the folder of one`,
    );
  const listed = listedDesign(design, { today, on });
  const { site } = options;
  if (site !== undefined && !listed.last.sites.has(site)) throw noSuchSite(site, [design.model]);
  const lists = subjects.flatMap((subject) => {
    const made = makeList(subject, listed);
    return site === undefined ? made : (ofSite(made, site) ?? []);
  });
  if (lists.length === 0) throw new CommandError(`${subjects.join(", ")} name no site; leave --site out`);
  await put({ lists, title: design.title, shows: shownTime(design) }, format, out);
  noteTime(design);
  return unreadable ? EXIT.unreadable : EXIT.clean;
}

function subjectsOf(asked: string, format: ListFormat): readonly ListSubject[] {
  const all = format.map ? (["sites", "hops"] as const) : SUBJECTS;
  const subjects = asked === "all" ? all : (asked.split(",").map((one) => one.trim()) as ListSubject[]);
  const wrong = subjects.find((one) => !SUBJECTS.includes(one));
  if (wrong !== undefined)
    throw new CommandError(`there is no list of ${wrong}; choose from ${SUBJECTS.join(", ")}, all`);
  if (format.single && subjects.length > 1)
    throw new CommandError(`${format.name.toUpperCase()} holds one list; name one, or take --format xlsx`);
  const placeless = format.map ? subjects.find((one) => !PLACED.has(one)) : undefined;
  if (placeless !== undefined)
    throw new CommandError(`${placeless} have no place on a map; sites, hops and ends have`);
  return [...new Set(subjects)];
}

function listedDesign(design: JudgedDesign, { today, on }: Pick<ListOptions, "today" | "on">): ListedDesign {
  const { model, session, root, gone, days } = design;
  const results = session.results();
  const standing = model.design();
  return {
    design: standing,
    last: on === undefined ? standingLast(model, today) : standing,
    shownOn: on,
    today,
    hopNames: hopsOf(design),
    results: new Map([
      ...[...results].map(([name, { hop, result }]) => [name, { hop, result }] as const),
      ...[...gone].map(([name, { hop, result, until }]) => [name, { hop, result, until }] as const),
    ]),
    findings: design.findings.map((finding): ListedFinding => {
      const { rule, severity, message, help, hop, place, accepted, time } = finding;
      const at = place && { file: shownFrom(root, place.file), line: place.line, column: place.column };
      const day = (hop === undefined ? undefined : gone.get(hop)?.on) ?? days.at(-1)!;
      const otherTime = holdsOn(finding, day) ? undefined : true;
      return { rule, severity, message, help, hop, accepted, time, otherTime, ...at };
    }),
  };
}

async function put(listed: Listed, format: ListFormat, out: string | undefined): Promise<void> {
  const { lists } = listed;
  const printed = await format.print(listed);
  if (printed instanceof Uint8Array) {
    if (out === undefined) process.stdout.write(printed);
    else writeBytes(out, printed);
  } else if (out === undefined) await print(printed);
  else writeBytes(out, [...printed].join(""));
  const told = lists.map(({ subject, rows }) => counted(subject, rows.length)).join(", ");
  if (out !== undefined) note(`${told} written to ${safe(out)}`);
}

function counted(subject: ListSubject, rows: number): string {
  if (subject === "line-up") return `${rows} ${rows === 1 ? "level" : "levels"} to be measured`;
  if (subject === "calibration") return `${rows} ${rows === 1 ? "group" : "groups"} of readings`;
  return `${rows} ${rows === 1 ? subject.slice(0, -1) : subject}`;
}
