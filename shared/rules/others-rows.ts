import type { OthersKey } from "../design/interference.js";
import { OTHERS_FIELDS } from "../others/columns.js";
import { shownFiles } from "../others/file-names.js";
import { lackingIn } from "../others/mapped.js";
import type { FaultCode, RowsFault } from "../others/reading.js";
import { repeatedOver } from "../others/repeated.js";
import { exampleHop } from "./example-preamble.js";
import { linesWords, OTHERS_EXAMPLE } from "./others-words.js";
import type { NetworkRule } from "./rule.js";

export const othersRows: NetworkRule = {
  scope: "network",
  id: "others-rows",
  severity: "warning",
  title: "Rows of a list that are not read are told with their lines",
  checks:
    "Each row of a list of others' transmissions: position, frequency, bandwidth and EIRP, without which it does not count, and its other cells, which are left out alone. Lines that a stray quotation mark takes into a cell. Rows that repeat another count once, in one list and over several. A list of which no row is read is an error.",
  why: "A transmitter that is left out interferes all the same.",
  fix: "Mend the rows, or the unit or column that the list names; the other rows count meanwhile.",
  source: "common practice",
  good: `${OTHERS_EXAMPLE}\n\n${exampleHop()}`,
  bad: `${OTHERS_EXAMPLE.replace('"frequency" in MHz', '"frequency" in GHz')}\n\n${exampleHop()}`,
  check({ design, files, report }) {
    const lists = (design.others ?? []).flatMap((list) => {
      const read = files.others.get(list);
      return read === undefined || "unusable" in read ? [] : [{ list, read }];
    });
    const repeated = repeatedOver(lists.map(({ read }) => read.table));
    const names = shownFiles(lists.map(({ list }) => list.file));
    for (const [place, { list, read }] of lists.entries()) {
      const { rows, table, notStanding, beyond } = read;
      // Told as the column that is not there, or not named.
      const lost = read.columnFaults.filter(({ is }) => is === "missing").map(({ key }) => key);
      if (lackingIn(list).length > 0) continue;
      const faults = read.faults.filter(({ code }) => !lost.some((key) => RESTS_ON[code]?.test(key)));
      const shown = names[place]!;
      const told = faults.toSorted((a, b) => RANK.indexOf(a.code) - RANK.indexOf(b.code) || b.rows - a.rows);
      const words = told.slice(0, MOST_TOLD).map(faultWords);
      if (told.length > MOST_TOLD) words.push(`and ${told.length - MOST_TOLD} more sorts of faults`);
      if (beyond) words.push(`only the first ${rows} rows are read`);
      const isNone = table.count === 0 && rows > notStanding;
      // A word for the state that no row has leaves the whole list out.
      if (table.count === 0 && rows > 0 && notStanding === rows)
        words.push(
          `the state of none of them says that it stands${list.stands === undefined ? "" : `, ${list.stands}`}`,
        );
      const { rows: again, most } = repeated[place]!;
      if (again.size > 0)
        words.push(
          `${linesWords(
            [...again]
              .map((row) => table.lines[row]!)
              .sort(ascending)
              .slice(0, 5),
            again.size,
          )} ${again.size === 1 ? "is a transmission" : "are transmissions"} that ${names[most]} has too, and count${again.size === 1 ? "s" : ""} once`,
        );
      if (words.length > 0)
        report({
          at: list.at,
          about: list.file,
          severity: isNone ? "error" : undefined,
          message: `${shown}: ${table.count - again.size} of ${rows} rows count; ${words.join("; ")}`,
          help: beyond
            ? "part the list, or keep of it what is near and in the bands of the network"
            : undefined,
        });
    }
  },
};

const ascending = (a: number, b: number) => a - b;

const MOST_TOLD = 3;

/** Columns without which a row has no such thing. */
const RESTS_ON: { readonly [Code in FaultCode]?: RegExp } = {
  position: /^(latitude|longitude|position|easting|northing)$/,
  frequency: /^frequency$/,
  bandwidth: /^(emission|bandwidth)$/,
  eirp: /^(eirp|power|antenna-gain|antenna-diameter)$/,
};

/** What costs a row comes first. */
const RANK: readonly FaultCode[] = [
  "swallowed",
  "exchanged",
  "position",
  "frequency",
  "bandwidth",
  "eirp",
  "cell",
  "repeated",
];

function faultWords({ code, key, rows, lines, sample }: RowsFault): string {
  const where = `${linesWords(lines, rows)}${sample === "" ? "" : ` ("${sample}")`}`;
  if (code === "swallowed")
    return `${rows} line${rows === 1 ? " is" : "s are"} lost in a cell with a quotation mark that goes on over the end of line ${lines.join(", ")}`;
  if (code === "repeated") return `${linesWords(lines, rows)} repeat${rows === 1 ? "s" : ""} another`;
  return `${WORDS[code](key)} in ${where}`;
}

const WORDS: Readonly<
  Record<Exclude<FaultCode, "repeated" | "swallowed">, (key: OthersKey | undefined) => string>
> = {
  exchanged: () => "latitude and longitude look exchanged",
  position: () => "no position",
  frequency: () => "no frequency of the fixed service",
  bandwidth: () => "no bandwidth",
  eirp: () => "no EIRP",
  cell: (key) => `no ${key === undefined ? "figure" : OTHERS_FIELDS[key].called}`,
};
