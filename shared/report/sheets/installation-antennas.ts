/** A table an antenna: what is planned, and boxes for what was built. */

import { type BuiltFigure, builtFigures } from "../../as-built/differences.js";
import type { HopEnd } from "../../design/design.js";
import { mountingOf } from "../../equipment/mounting.js";
import type { SiteEnd } from "../../equipment/site-plan.js";
import { antennasStated, type Stand } from "../../equipment/stands.js";
import { turnedAt } from "../../equipment/turning.js";
import { unitsOf } from "../../equipment/units.js";
import { unitId } from "../../equipment/wiring/ids.js";
import type { Wiring } from "../../equipment/wiring/wiring.js";
import { fixed, frequency, kilometres, metres, trimmed } from "../../format/numbers.js";
import type { Block, Inline, TableRow } from "../document/document.js";
import type { Hung } from "../draw/system/site/hung.js";
import type { InstallationInput } from "./installation-input.js";
import { azimuthText, countedFrom, declinationOn, gridNorthAt, signedDegrees } from "./norths.js";
import { compassTold } from "./running.js";
import { said } from "./said.js";
import type { SheetWords } from "./words/sheet-words.js";

/** Two stand side by side where there is room. */
export function antennaBlocks(input: InstallationInput, hung: readonly Hung[], wiring: Wiring): Block[] {
  const tables = hung.map((one, index) => antennaTable(input, one, index + 1, wiring));
  const blocks: Block[] = [];
  for (let at = 0; at < tables.length; at += 2) {
    const sides = tables.slice(at, at + 2).map((table) => [table]);
    blocks.push(sides.length === 2 ? { type: "pair", sides } : tables[at]!);
  }
  return blocks;
}

function antennaTable(input: InstallationInput, one: Hung, number: number, wiring: Wiring): Block {
  const { plan, results, magneticDay, words } = input;
  const { installation, common, figure } = words;
  const { antennas } = installation;
  const end = plan.ends.find(({ hop }) => hop.name === one.hop)!;
  const stand = antennasStated(end.end).find(({ fact }) => one.at.endsWith(` / ${fact}`));
  const { day } = compassTold(magneticDay, words);
  const declinationDeg = declinationOn(plan.site, day);
  const grid = gridNorthAt(plan.site);
  const seen = results.get(one.hop)?.geometry?.find(({ site }) => site === plan.site.name);
  const { azimuthDeg, heightM, diameterM, distanceM } = one;
  const row = (label: string, value: string | undefined, box?: string): TableRow[] =>
    value === undefined && box === undefined ? [] : [{ cells: [label, value ?? "–", box ?? ""] }];
  const always = (label: string, value: string | undefined, box = ""): TableRow => ({
    cells: [label, value ?? common.notStated, box],
  });
  const built = builtOf(end.end, stand?.fact, azimuthDeg);
  const mounting = stand && mountingOf(end.end, stand);
  const weightKg = stand?.antenna?.mount?.weightKg;
  const rows: TableRow[] = [
    always(
      antennas.antenna,
      one.title ??
        [one.name, diameterM === undefined ? undefined : figure(`${trimmed(diameterM, 2)} m`)]
          .filter((part) => part !== undefined)
          .join(", "),
      serialsOf(end.end, stand?.fact).join(", "),
    ),
    ...(one.role === "antenna" ? [] : row("", installation.mast.role(one.role))),
    always(antennas.weight, weightText(weightKg, words)),
    always(
      antennas.height,
      heightM === undefined ? undefined : figure(metres(heightM)),
      built.heightM === undefined ? "" : figure(metres(built.heightM)),
    ),
    ...row(antennas.side, azimuthDeg === undefined ? undefined : sideOf(azimuthDeg, antennas.sides)),
    always(
      antennas.azimuthTrue,
      azimuthDeg === undefined ? undefined : figure(azimuthText(azimuthDeg, 2)),
      built.azimuthDeg === undefined ? "" : figure(azimuthText(built.azimuthDeg, 2)),
    ),
    ...(day === undefined
      ? []
      : row(
          antennas.azimuthCompass(words.day(day)),
          azimuthDeg === undefined || declinationDeg === undefined
            ? undefined
            : figure(azimuthText(countedFrom(azimuthDeg, declinationDeg), 1)),
        )),
    ...(grid === undefined
      ? []
      : row(
          antennas.azimuthGrid(installation.gridName(grid.grid)),
          azimuthDeg === undefined
            ? undefined
            : figure(azimuthText(countedFrom(azimuthDeg, grid.convergenceDeg), 2)),
        )),
    always(antennas.elevation, seen && figure(signedDegrees(seen.elevationDeg, 2))),
    always(antennas.polarization, polarizationOf(end, words)),
    ...row(antennas.length, distanceM === undefined ? undefined : figure(kilometres(distanceM))),
    ...row(antennas.mounting, mounting && antennas.mountings[mounting]),
    ...row(
      antennas.coupler,
      stand?.coupler &&
        [stand.coupler.title ?? stand.coupler.name, weightText(stand.coupler.weightKg, words)]
          .filter((part) => part !== undefined)
          .join(", "),
    ),
    ...unitRows(end, one, wiring, words),
    ...guideRows(stand, words),
    ...row(antennas.down, one.down.map(({ number: cable }) => cable).join(", ") || undefined),
    ...bracketRows(end, words),
    ...row("", one.also.length === 0 ? undefined : antennas.sharedWith(one.also.join(", "))),
  ];
  return {
    type: "table",
    whole: true,
    caption: antennas.caption(number, one.name, one.hop, one.far),
    columns: [{ title: "" }, { title: common.planned }, { title: antennas.built, fill: true }],
    rows: rows.map(({ cells: [label, ...others] }) => ({
      cells: [{ text: label as string, mark: "quiet" } as Inline, ...others],
    })),
  };
}

/** Whichever of eight an azimuth is nearest to. */
function sideOf(azimuthDeg: number, sides: readonly string[]): string {
  return sides[Math.round(azimuthDeg / 45) % 8]!;
}

function polarizationOf({ hop, end, facts }: SiteEnd, words: SheetWords): string | undefined {
  const all = facts === undefined ? [] : unitsOf(hop, end, facts).flatMap((one) => one.polarization ?? []);
  const turned = turnedAt(hop, end);
  const told = [...new Set(all)].map((one) => words.polarizations[one]);
  if (turned !== undefined) told.push(words.installation.antennas.turned[turned]);
  return told.length === 0 ? undefined : told.join(", ");
}

/** Units that send through this antenna: where each is joined, what it is set to and weighs; its serial number goes into the box. */
function unitRows({ hop, end, facts }: SiteEnd, one: Hung, wiring: Wiring, words: SheetWords): TableRow[] {
  if (facts === undefined) return [];
  const { antennas } = words.installation;
  const antenna = `antenna ${one.hop} ${one.at.split(" / ").at(-1)}`;
  return unitsOf(hop, end, facts).flatMap(({ branch, subBand, transmitHz, polarization }): TableRow[] => {
    const id = unitId(hop.name, branch);
    if (!leadsTo(id, antenna, wiring)) return [];
    const joint = wiring.joints.find(
      ({ ends, carries }) => ends[0].part === id && carries.kind === "hop" && ends[1].part !== id,
    );
    const name = hop.radio?.title ?? hop.radio?.name;
    const port =
      joint && wiring.parts.get(joint.ends[1].part)?.kind === "coupler" ? joint.ends[1].port : undefined;
    const told = [
      name,
      subBand,
      port === undefined ? undefined : antennas.onPort(said(port, words)),
      // The port of a transducer is named by it.
      polarization && facts.dualPolarized && port !== polarization
        ? words.polarizations[polarization]
        : undefined,
      transmitHz === undefined ? undefined : words.figure(frequency(transmitHz)),
      weightText(hop.radio?.unit?.weightKg, words),
    ].filter((part) => part !== undefined);
    const label = branch === "only" ? antennas.unit : `${antennas.unit}, ${said(branch, words)}`;
    return [{ cells: [label, told.join(", ") || "–", serialsOf(end, "unit", branch).join(", ")] }];
  });
}

function weightText(weightKg: number | undefined, { figure }: SheetWords): string | undefined {
  return weightKg === undefined ? undefined : figure(`${trimmed(weightKg, 1)} kg`);
}

/** What the design states of this antenna as built: its box is filled in. */
function builtOf(
  end: HopEnd,
  antenna: Stand["fact"] | undefined,
  azimuthDeg: number | undefined,
): { readonly heightM?: number; readonly azimuthDeg?: number } {
  const figures = end.asBuilt === undefined ? [] : builtFigures(end, end.asBuilt, azimuthDeg);
  const of = (fact: BuiltFigure["fact"]) => figures.find((one) => one.fact === fact)?.built;
  switch (antenna) {
    case "antenna":
      return { heightM: of("height"), azimuthDeg: of("azimuth") };
    case "diversity-antenna":
      return { heightM: of("diversity-height") };
    default:
      return {};
  }
}

/** Of a unit by its branch; the one that names none is of the main unit. */
function serialsOf(end: HopEnd, of: string | undefined, branch = "main"): readonly string[] {
  const wanted = branch === "only" ? "main" : branch;
  return (end.asBuilt?.serials ?? [])
    .filter((one) => one.of === of && (of !== "unit" || (one.branch ?? "main") === wanted))
    .map(({ number }) => number);
}

/** Whether what a unit sends goes out by an antenna. */
function leadsTo(unit: string, antenna: string, { joints }: Wiring): boolean {
  const reached = [unit];
  for (const id of reached)
    for (const { ends, carries } of joints)
      if (carries.kind === "hop" && ends[0].part === id && !reached.includes(ends[1].part))
        reached.push(ends[1].part);
  return reached.includes(antenna);
}

function guideRows(stand: Stand | undefined, { installation, figure }: SheetWords): TableRow[] {
  if (stand?.feeder === undefined) return [];
  const { feeder, feederLengthM } = stand;
  const length = feederLengthM === undefined ? "" : `, ${figure(metres(feederLengthM))}`;
  return [{ cells: [installation.antennas.guide, `${feeder.title ?? feeder.name}${length}`, ""] }];
}

function bracketRows({ end }: SiteEnd, { installation }: SheetWords): TableRow[] {
  const brackets = end.installation?.brackets ?? [];
  if (brackets.length === 0) return [];
  const told = brackets.map(({ title, count }) => (count === 1 ? title : `${fixed(count, 0)} × ${title}`));
  return [{ cells: [installation.antennas.brackets, told.join(", "), ""] }];
}
