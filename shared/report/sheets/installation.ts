/** The sheet that a site is built by: whoever climbs has no other paper. */

import { USUAL_GROUNDING_M } from "../../equipment/cable-run.js";
import { runsOf } from "../../equipment/runs.js";
import type { SitePlan } from "../../equipment/site-plan.js";
import { earthPoints } from "../../equipment/wiring/earth.js";
import { siteWiring } from "../../equipment/wiring/site-wiring.js";
import type { WiredPart } from "../../equipment/wiring/wiring.js";
import type { HopResult } from "../../evaluate/account/result.js";
import { metres, trimmed, watts } from "../../format/numbers.js";
import { formatDms } from "../../geodesy/coordinates.js";
import type { Block, Fact, Page, Section } from "../document/document.js";
import { drawMast, MOST_DRAWN } from "../draw/system/site/draw-mast.js";
import { type Hung, hungAt } from "../draw/system/site/hung.js";
import { distancesToKeep } from "../pages/cautions.js";
import { errorsSection } from "./design-errors.js";
import { cautionsSection } from "./hop-facts.js";
import { antennaBlocks } from "./installation-antennas.js";
import { cableSection } from "./installation-cables.js";
import type { InstallationInput } from "./installation-input.js";
import { loadSection } from "./installation-load.js";
import { rackSection } from "./installation-rack.js";
import { declinationOn, gridNorthAt, signedDegrees } from "./norths.js";
import { compassTold } from "./running.js";
import { said } from "./said.js";
import type { SheetWords } from "./words/sheet-words.js";

export function installationSheet(input: InstallationInput): Page {
  const { plan, results, name, words, colophon } = input;
  const { installation } = words;
  const wiring = siteWiring(plan);
  const hung = hungAt(plan, wiring, results).map((one, index) => ({ ...one, number: index + 1 }));
  return {
    name,
    title: `${installation.title}: ${plan.site.title || plan.site.name}`,
    subtitle: subtitle(input),
    language: words.language,
    keyFigures: [],
    sections: [
      cautions(input),
      ...errorsSection(input.errors, words),
      placeSection(input),
      loadSection(plan, words),
      orderSection(words),
      ...drawing(plan, hung, words),
      {
        id: "antennas",
        title: installation.antennas.title,
        blocks:
          hung.length === 0
            ? [{ type: "paragraph", text: installation.antennas.none }]
            : [
                { type: "paragraph", text: { text: installation.antennas.boxesTold, mark: "quiet" } },
                ...antennaBlocks(input, hung, wiring),
              ],
      },
      ...rackSection(plan, words),
      ...cableSection(plan, wiring, input.design.labels, runsOf(plan, input.design), words),
      ...earthSection(input, wiring.parts),
      fieldSection(words),
    ],
    colophon,
  };
}

function subtitle({ plan: { site }, title, words }: InstallationInput): string {
  const parts = [site.title ? site.name : undefined];
  if (title !== undefined) parts.push(`${words.common.designOf}: ${title}`);
  return parts.filter((part) => part !== undefined).join(", ");
}

/** In front of each antenna of the site, by the hop that it is of. */
function cautions({ plan, results, pairs, words }: InstallationInput): Section {
  const distances = plan.ends.flatMap(({ hop }) => {
    const result = results.get(hop.name);
    if (result === undefined) return [];
    return distancesToKeep(hop, result, pairs.get(hop.name))
      .filter(({ site }) => site === plan.site.name)
      .map((one) => ({ ...one, site: hop.name }));
  });
  return cautionsSection(distances, words, "whole");
}

function placeSection({ plan, results, magneticDay, words }: InstallationInput): Section {
  const { installation, common, figure } = words;
  const { place } = installation;
  const { site, equipment } = plan;
  const { position, structure } = site;
  const { text: compass, day } = compassTold(magneticDay, words);
  const declinationDeg = declinationOn(site, day);
  const grid = gridNorthAt(site);
  const fact = (label: string, value: string | undefined): Fact[] =>
    value === undefined ? [] : [{ label, value }];
  const open = (label: string, value: string | undefined): Fact => ({
    label,
    value: value ?? common.notStated,
  });
  const facts: Fact[] = [
    open(
      place.position,
      position &&
        figure(
          `${formatDms(position.latitudeDeg, "latitude")} ${formatDms(position.longitudeDeg, "longitude")}`,
        ),
    ),
    open(place.ground, groundOf(plan, results, words)),
    open(
      place.structure,
      structure && `${installation.mast.structure(structure.kind)}, ${figure(metres(structure.heightM))}`,
    ),
    ...(equipment?.mounts ?? []).map(({ title, massKg, heightM }) => ({
      label: place.steel,
      value: [
        title,
        figure(`${trimmed(massKg, 1)} kg`),
        ...(heightM === undefined ? [] : [figure(metres(heightM))]),
      ].join(", "),
    })),
    open(place.address, site.address),
    open(place.access, site.access),
    open(place.contact, site.contact),
    ...fact(place.plant, equipment?.plantW === undefined ? undefined : figure(watts(equipment.plantW))),
    ...fact(
      place.battery,
      equipment?.battery &&
        figure(`${trimmed(equipment.battery.capacityAh, 1)} Ah, ${trimmed(equipment.battery.nominalV, 1)} V`),
    ),
    ...(day === undefined || position === undefined
      ? []
      : [
          {
            label: `${place.declination}, ${words.day(day)}`,
            value:
              declinationDeg === undefined
                ? words.facts.noDeclination
                : figure(signedDegrees(declinationDeg, 1)),
          },
        ]),
    ...(position === undefined
      ? []
      : [
          grid === undefined
            ? { label: place.convergence("–"), value: place.noGrid }
            : {
                label: place.convergence(installation.gridName(grid.grid)),
                value: figure(signedDegrees(grid.convergenceDeg, 2)),
              },
        ]),
  ];
  return {
    id: "place",
    title: place.title,
    blocks: [
      { type: "facts", facts },
      { type: "paragraph", text: [{ text: `${place.toldNorths} ${compass}`, mark: "quiet" }] },
    ],
  };
}

function groundOf(
  { site, ends }: SitePlan,
  results: ReadonlyMap<string, HopResult>,
  { installation: { place }, figure }: SheetWords,
): string | undefined {
  if (site.groundM !== undefined) return figure(metres(site.groundM));
  for (const { hop } of ends) {
    const seen = results.get(hop.name)?.geometry?.find((one) => one.site === site.name);
    if (seen) return `${figure(metres(seen.groundM))}, ${place.fromTerrain}`;
  }
  return undefined;
}

function drawing(plan: SitePlan, hung: readonly Hung[], { installation }: SheetWords): Section[] {
  const drawn = drawMast(plan, hung, installation.mast);
  const blocks: Block[] = drawn
    ? [{ type: "figure", name: "mast", low: true, ...drawn, caption: installation.drawingTold }]
    : hung.length > MOST_DRAWN
      ? [{ type: "paragraph", text: installation.notDrawn(hung.length, MOST_DRAWN) }]
      : [];
  return blocks.length === 0 ? [] : [{ id: "structure", title: installation.drawing, blocks }];
}

function earthSection(
  { plan, design, words }: InstallationInput,
  parts: ReadonlyMap<string, WiredPart>,
): Section[] {
  const { earth, cables } = words.installation;
  const points = earthPoints(plan, siteWiring(plan), design.groundingEveryM);
  if (points.length === 0) return [];
  const byPart = [...Map.groupBy(points, ({ part }) => part)];
  const alongCables = points.some(({ what }) => what.startsWith("kits along"));
  return [
    {
      id: "earth",
      title: earth.title,
      blocks: [
        {
          type: "table",
          columns: [
            { title: earth.part },
            { title: earth.at },
            { title: earth.points, align: "right" },
            { title: cables.done, fill: true },
          ],
          rows: byPart.map(([part, those]) => ({
            cells: [
              partText(parts.get(part)!, words),
              those.map(({ what, count }) => (count === 1 ? "" : `${count} `) + earth.where[what]).join("; "),
              String(those.reduce((sum, { count }) => sum + count, 0)),
              "",
            ],
          })),
        },
        ...(alongCables
          ? [
              {
                type: "paragraph" as const,
                text: earth.kitsTold(words.figure(metres(design.groundingEveryM ?? USUAL_GROUNDING_M))),
              },
            ]
          : []),
        { type: "paragraph", text: { text: earth.told, mark: "quiet" } },
      ],
    },
  ];
}

/** `chassis A`, `unit R18, MOSS-TARN, main` */
function partText({ kind, name, place, of }: WiredPart, words: SheetWords): string {
  const named = [name, place?.chassis === name ? undefined : place?.chassis, of?.hop];
  const branch = of?.branch === undefined || of.branch === "only" ? undefined : said(of.branch, words);
  const told = [...named, branch].filter((one) => one !== undefined).join(", ");
  const what = words.installation.parts[kind];
  return told === "" ? what : `${what} ${told}`;
}

function orderSection({ installation: { order, cables }, common }: SheetWords): Section {
  return {
    id: "order",
    title: order.title,
    blocks: [
      {
        type: "table",
        columns: [{ title: "", align: "right" }, { title: common.what }, { title: cables.done, fill: true }],
        rows: order.steps.map((step, at) => ({ cells: [String(at + 1), step, ""] })),
      },
    ],
  };
}

function fieldSection({ installation: { fields } }: SheetWords): Section {
  return {
    id: "fields",
    title: fields.title,
    blocks: [
      {
        type: "form",
        fields: [
          { label: fields.builtOn },
          { label: fields.builtBy },
          { label: fields.weather },
          { label: fields.instrument },
          { label: fields.north },
          { label: fields.earthResistance, unit: "Ω" },
          { label: fields.remarks, wide: true },
        ],
      },
      {
        type: "paragraph",
        text: fields.back
          .split("`")
          .map((part, at) => (at % 2 ? { text: part, mark: "code" as const } : part)),
      },
    ],
  };
}
