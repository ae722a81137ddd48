import { address } from "../design/address.js";
import type { Antenna } from "../design/catalogue.js";
import { antennasStated } from "../equipment/stands.js";
import { shownFile } from "../others/file-names.js";
import type { PatternFaultCode } from "../radio/pattern-table.js";
import { exampleHop } from "./example-preamble.js";
import { radiatedFault } from "./pattern-implausible.js";
import { gathering } from "./rule.js";

export const patternFile = gathering<readonly InUse[]>({
  scope: "network",
  id: "pattern-file",
  severity: "error",
  title: "The table of a pattern must be readable",
  checks:
    "The tables of antennas in use: whether there is one; angles from 0 to 180 degrees, each once and in order; discrimination not below 0 dB. What it would radiate with the gain of the antenna, as `pattern-implausible` has it. A row that is not so is left out, or told where it is taken all the same; levels at or below 0 dB throughout are relative to boresight, and their sign is turned.",
  why: "Without its pattern an antenna counts with a reference pattern, and a wrong row with tens of decibels.",
  fix: "Mend the path or the rows; the columns are angle, co-polar, cross-polar.",
  source: "data of the equipment",
  good: exampleHop(),
  bad: `antenna DISH60-18X like DISH60-18 {\n  pattern-file "lost.csv"\n}\n\n${exampleHop({
    keld: "antenna DISH60-18X at 40 m\n    transmits high",
  })}`,
  each: "hop",
  note({ ends }) {
    const found = ends
      .flatMap(antennasStated)
      .flatMap(({ antenna }) =>
        antenna?.patternFile === undefined ? [] : [{ of: antenna, file: antenna.patternFile }],
      );
    return found.length === 0 ? undefined : found;
  },
  tell(noted, { files, report }) {
    const seen = new Set<string>();
    for (const { of, file } of noted.flatMap(({ note }) => note)) {
      const antenna = of.name;
      const read = files.patterns.get(file);
      if (read === undefined || seen.has(antenna)) continue;
      seen.add(antenna);
      const at = address("antenna", antenna, "pattern-file");
      const shown = shownFile(file);
      if ("unusable" in read) {
        report({ at, message: `the pattern ${shown} of ${antenna} is not used: ${read.unusable}` });
        continue;
      }
      const over = of.pattern.length > 0 ? undefined : radiatedFault({ ...of, pattern: read.points });
      if (over !== undefined)
        report({
          at,
          about: `${file} radiated`,
          severity: "warning",
          message: `the pattern ${shown} of ${antenna}: ${over}`,
        });
      for (const { code, rows, line } of read.faults) {
        const first = rows === 1 ? `line ${line}` : `${rows} rows, first in line ${line}`;
        report({
          at,
          about: `${file} ${code}`,
          severity: "warning",
          message: `the pattern ${shown} of ${antenna}: ${WORDS[code]} (${first})`,
        });
      }
    }
  },
});

interface InUse {
  readonly of: Antenna;
  readonly file: string;
}

const WORDS: Readonly<Record<PatternFaultCode, string>> = {
  unread: "rows without an angle and its figures in plain decimals are left out",
  angle: "angles below 0 or above 180 degrees are left out",
  above: "figures above the boresight gain are left out",
  beyond: "figures of more than 120 dB are left out",
  order: "its angles do not ascend",
  doubled: "of two figures for one angle the one that lets more through counts",
};
