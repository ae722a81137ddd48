/** The page of one site: what hangs there and where it looks, what stands in its rack, and what all of it comes to. */
import type { Design } from "../../design/design.js";
import { stateWords } from "../../design/state.js";
import type { SitePlan } from "../../equipment/site-plan.js";
import { unitsOf } from "../../equipment/units.js";
import { siteWiring } from "../../equipment/wiring/site-wiring.js";
import type { HopResult } from "../../evaluate/account/result.js";
import { fixed, kilometres, metres } from "../../format/numbers.js";
import { formatDms } from "../../geodesy/coordinates.js";
import type { InterferenceAt } from "../../interference/receiver-result.js";
import type { Block, Figure, Inline, Page, ReportFinding, Section, Table } from "../document/document.js";
import { drawAbove } from "../draw/system/site/draw-above.js";
import { drawFace } from "../draw/system/site/draw-face.js";
import { bearing, drawMast, MOST_DRAWN } from "../draw/system/site/draw-mast.js";
import { drawRack } from "../draw/system/site/draw-rack.js";
import { facesOf } from "../draw/system/site/face.js";
import { faceTitle } from "../draw/system/site/face-words.js";
import { type Hung, hungAt } from "../draw/system/site/hung.js";
import { builtAtSite } from "./as-built.js";
import { coLocatedSection } from "./co-located.js";
import { gravestFirst } from "./figures.js";
import { siteBlocks } from "./parts-page.js";
import { portPlanSections } from "./port-plan.js";

export interface SitePageInput {
  readonly plan: SitePlan;
  readonly design: Design;
  /** Of the hops that end there, by name. */
  readonly results: ReadonlyMap<string, HopResult>;
  /** At the receivers of these hops; undefined: it was not computed. */
  readonly felt?: ReadonlyMap<string, readonly InterferenceAt[]>;
  /** On the site itself; those on its hops stand on their pages. */
  readonly findings: readonly ReportFinding[];
  /** Pages of hops and of other sites; undefined: there is none in this report. */
  readonly pageOf: (kind: "hop" | "site", name: string) => string | undefined;
  readonly name: string;
  readonly up?: { readonly text: string; readonly page: string };
  readonly colophon: string;
}

export function sitePage(input: SitePageInput): Page {
  const { plan, design, results, findings, name, up, colophon } = input;
  const wiring = siteWiring(plan);
  const hung = hungAt(plan, wiring, results);
  const cards = plan.placed.cards.length;
  return {
    name,
    title: plan.site.title ?? plan.site.name,
    subtitle: subtitle(plan),
    up: up && { text: up.text, to: { page: up.page } },
    keyFigures: [
      { label: "Hops", value: String(new Set(plan.ends.map(({ hop }) => hop.name)).size) },
      { label: "Antennas", value: String(hung.length) },
      { label: "Cards", value: String(cards) },
    ],
    sections: [
      ...findingsSection(findings),
      ...structureSection(input, hung),
      ...builtAtSite(plan, results),
      ...coLocatedSection(plan.site.name, input.felt ?? [], design, (hop) => linkTo(input, "hop", hop)),
      ...rackSection(plan, wiring),
      ...portPlanSections(plan, design),
      { id: "parts", title: "Parts and loads", blocks: siteBlocks(plan, design) },
    ],
    colophon,
  };
}

function subtitle({ site }: SitePlan): string {
  const { name, title, state, position, structure } = site;
  const parts = [
    title === undefined ? undefined : name,
    state === undefined ? undefined : stateWords(state),
    structure && `${structure.kind}, ${metres(structure.heightM)}`,
    position &&
      `${formatDms(position.latitudeDeg, "latitude")} ${formatDms(position.longitudeDeg, "longitude")}`,
  ];
  return parts.filter((part) => part !== undefined).join(", ");
}

function findingsSection(findings: readonly ReportFinding[]): Section[] {
  if (findings.length === 0) return [];
  return [
    {
      id: "findings",
      title: "Findings",
      blocks: [{ type: "findings", findings: gravestFirst(findings) }],
    },
  ];
}

function structureSection(input: SitePageInput, hung: readonly Hung[]): Section[] {
  const { plan } = input;
  if (plan.ends.length === 0) return [];
  const mast = drawMast(plan, hung);
  const above = drawAbove(plan.site.name, hung);
  const blocks: Block[] = [
    ...(mast ? [figure("mast", mast, MAST_CAPTION)] : []),
    ...(above ? [figure("above", above, ABOVE_CAPTION)] : []),
    ...(hung.length > MOST_DRAWN
      ? [
          {
            type: "paragraph",
            text: `${hung.length} antennas hang here: they are told below and not drawn, as no drawing of more than ${MOST_DRAWN} can be read.`,
          } as const,
        ]
      : []),
    hungTable(input, hung),
  ];
  return [{ id: "structure", title: "Antennas and hops", blocks }];
}

const MAST_CAPTION =
  "Seen from the south: heights and the sizes of antennas to one scale. The further east an antenna looks, the further it stands to the right, the further west to the left; what looks north or south stands near the middle. Where several would cover each other they are moved outwards. On a narrow screen all labels stand on the right.";
const ABOVE_CAPTION = "Seen from above, azimuths from true north.";

function figure(
  name: string,
  drawn: { readonly svg: string; readonly narrow: string; readonly alt: string },
  caption?: string,
): Figure {
  return { type: "figure", name, ...drawn, caption };
}

function linkTo({ pageOf }: Pick<SitePageInput, "pageOf">, kind: "hop" | "site", name: string): Inline {
  const page = pageOf(kind, name);
  return page === undefined ? name : { text: name, to: { page } };
}

/** What the drawings show, in words. */
function hungTable({ plan, pageOf, results }: SitePageInput, hung: readonly Hung[]): Table {
  const hops = new Set(hung.map(({ hop }) => hop));
  const without = plan.ends.filter(({ hop }) => !hops.has(hop.name));
  const link = (kind: "hop" | "site", name: string) => linkTo({ pageOf }, kind, name);
  const or = (text: string | undefined) => text ?? "–";
  const ends = new Map(plan.ends.map((one) => [one.hop.name, one]));
  const polarization = (name: string) => {
    const { hop, end, facts } = ends.get(name)!;
    const sent =
      facts === undefined ? [] : unitsOf(hop, end, facts).flatMap((unit) => unit.polarization ?? []);
    return [...new Set(sent)].join(" and ") || "not stated";
  };
  const elevation = (name: string) => {
    const here = results.get(name)?.geometry?.find(({ site }) => site === plan.site.name);
    return or(here && `${fixed(here.elevationDeg, 2)}°`);
  };
  return {
    type: "table",
    columns: [
      { title: "Hop" },
      { title: "To" },
      { title: "Azimuth", align: "right" },
      { title: "Elevation", align: "right" },
      { title: "Length", align: "right" },
      { title: "Antenna" },
      { title: "Height", align: "right" },
      { title: "Polarization" },
      { title: "On it" },
      { title: "Down from it" },
    ],
    rows: [
      ...hung.map((one) => ({
        cells: [
          link("hop", one.hop),
          link("site", one.far),
          or(one.azimuthDeg === undefined ? undefined : bearing(one.azimuthDeg)),
          elevation(one.hop),
          or(one.distanceM === undefined ? undefined : kilometres(one.distanceM)),
          one.role === "antenna" ? one.name : `${one.name}, ${one.role}`,
          or(one.heightM === undefined ? undefined : metres(one.heightM)),
          polarization(one.hop),
          [...one.units, ...one.couplers, ...one.also.map((hop) => `also of ${hop}`)].join(", ") || "–",
          one.down.map(({ number }) => number).join(", ") || "–",
        ],
      })),
      ...without.map(({ hop, far }) => {
        const shared = hung.find(({ also }) => also.includes(hop.name));
        const antenna = shared === undefined ? "not stated" : `${shared.name}, shared with ${shared.hop}`;
        const height = or(shared?.heightM === undefined ? undefined : metres(shared.heightM));
        const azimuth = or(shared?.azimuthDeg === undefined ? undefined : bearing(shared.azimuthDeg));
        const length = or(shared?.distanceM === undefined ? undefined : kilometres(shared.distanceM));
        return {
          cells: [
            link("hop", hop.name),
            link("site", far.site.name),
            azimuth,
            elevation(hop.name),
            length,
            antenna,
            height,
            polarization(hop.name),
            "–",
            "–",
          ],
        };
      }),
    ],
  };
}

function rackSection(plan: SitePlan, wiring: ReturnType<typeof siteWiring>): Section[] {
  const rack = drawRack(plan);
  if (rack === undefined) return [];
  const faces = facesOf(plan, wiring).map((face, index) =>
    figure(`face-${index + 1}`, drawFace(face), `${FACE_CAPTION} ${faceTitle(face)}.`),
  );
  return [
    {
      id: "rack",
      title: "Rack and faces",
      blocks: [figure("rack", rack, RACK_CAPTION), ...faces],
    },
  ];
}

const RACK_CAPTION =
  "Chassis in the order of the text, from above, each as high as it is: on which unit of height one stands is not stated.";
const FACE_CAPTION =
  "No picture of the shelf: its slots are in the order of their numbers, not where the maker puts them. A port with something on it has a thick edge, a free one a dotted one; dashed is what is proposed, not stated.";
