/** Facts of rows as statements, and those among them that say something else than the design does. */

import type { Hop, HopEnd, Site } from "../design/design.js";
import { trimmed } from "../format/numbers.js";
import { formatDms } from "../geodesy/coordinates.js";
import type { EndRow, HopRow, SiteRow, StatedPosition } from "./facts.js";
import { type Figure, figureText } from "./figures.js";
import { type Statement, type StatementArg, statement } from "./state.js";
import { stateStatement } from "./stated-state.js";

/** Statements of a site in the order of the language; with a design's own only those that say something else. */
export function siteStatements(row: Omit<SiteRow, "from">, known?: Site): Statement[] {
  const { state, position, ground, structure, structureHeight } = row;
  const kind = structure ?? known?.structure?.kind ?? "?";
  const heightM = known?.structure?.heightM;
  return telling(known !== undefined, [
    position &&
      statement("at", {
        name: "position",
        text: positionText(position),
        changed: isMoved(known?.position, position),
      }),
    ground && statement("ground", figureArg("level", ground, known?.groundM)),
    (structure !== undefined || structureHeight) &&
      (structureHeight || heightM !== undefined || known === undefined) &&
      statement(
        "structure",
        wordArg("kind", kind, structure === undefined ? kind : known?.structure?.kind),
        structureHeight
          ? figureArg("height", structureHeight, heightM)
          : { name: "height", text: heightM === undefined ? "?" : `${heightM} m` },
      ),
    state && stateStatement(state, known?.state),
  ]);
}

/** Names of the catalogue in place of what the rows write. */
export interface Chosen {
  readonly radio?: string;
  readonly objective?: string;
}

export function hopStatements(row: HopRow, chosen: Chosen, known?: Hop): Statement[] {
  const { state, channel, polarization, arrangement, width, highestMode } = row;
  const lowest = row.lowestMode ?? highestMode;
  const was = known?.channel;
  const isSameChannel =
    was !== undefined &&
    channel !== undefined &&
    was.plan === channel.plan &&
    was.number === channel.number &&
    isSameFigure(was.bandwidthHz, channel.width);
  const isSameModes =
    known !== undefined &&
    known.modes[0]?.modulation === lowest &&
    known.modes.at(-1)?.modulation === highestMode &&
    (width === undefined || isSameFigure(known.modes[0]?.bandwidthHz, width));
  const channelChanged = isSameChannel ? undefined : true;
  return telling(known !== undefined, [
    chosen.objective !== undefined &&
      statement("objective", wordArg("objective", chosen.objective, known?.objective?.name)),
    channel &&
      statement(
        "channel",
        { name: "plan", text: channel.plan, changed: channelChanged },
        { name: "width", label: "/", text: figureText(channel.width), changed: channelChanged },
        { name: "number", label: "/", text: String(channel.number), changed: channelChanged },
      ),
    polarization !== undefined &&
      statement("polarization", wordArg("value", polarization, known?.polarization)),
    arrangement !== undefined &&
      statement("arrangement", wordArg("value", arrangement, known?.arrangement.name)),
    chosen.radio !== undefined && statement("radio", wordArg("radio", chosen.radio, known?.radio?.name)),
    highestMode !== undefined &&
      (width ?? channel?.width) !== undefined &&
      modesStatement(
        figureText((width ?? channel?.width)!),
        lowest!,
        highestMode,
        isSameModes ? undefined : true,
      ),
    state && stateStatement(state, known?.state),
  ]);
}

function modesStatement(
  width: string,
  lowest: string,
  highest: string,
  changed: true | undefined,
): Statement {
  const bandwidth = { name: "bandwidth", text: width, changed };
  if (lowest === highest) return statement("mode", bandwidth, { name: "modulation", text: highest, changed });
  return statement(
    "modes",
    bandwidth,
    { name: "lowest", text: lowest, changed },
    { name: "highest", label: "to", text: highest, changed },
  );
}

/** Names of the catalogue at one end. */
export interface ChosenAtEnd {
  readonly antenna?: string;
  readonly diversityAntenna?: string;
  readonly coupler?: string;
  readonly feeder?: string;
}

/** @param hasChannel whether the hop has a channel, so that a half of the band says the frequency */
export function endStatements(
  row: Omit<EndRow, "site">,
  chosen: ChosenAtEnd,
  hasChannel: boolean,
  known?: HopEnd,
): Statement[] {
  const { antennaHeight, diversityHeight, mounting, feederLength, power, extraLoss } = row;
  const antenna = chosen.antenna ?? known?.antenna?.name;
  const diversity = chosen.diversityAntenna ?? known?.diversityAntenna?.name;
  const coupler = chosen.coupler ?? known?.coupler?.name;
  const feeder = chosen.feeder ?? known?.feeder?.name;
  return telling(known !== undefined, [
    antenna !== undefined && (chosen.antenna !== undefined || antennaHeight)
      ? statement(
          "antenna",
          wordArg("antenna", antenna, known ? known.antenna?.name : undefined),
          labelled("at", antennaHeight, known?.antennaHeightM),
        )
      : antennaHeight && statement("height", figureArg("value", antennaHeight, known?.antennaHeightM)),
    diversity !== undefined &&
      (chosen.diversityAntenna !== undefined || diversityHeight) &&
      statement(
        "diversity-antenna",
        wordArg("antenna", diversity, known?.diversityAntenna?.name),
        labelled("at", diversityHeight, known?.diversityHeightM) ?? { name: "at", label: "at", text: "?" },
      ),
    coupler !== undefined &&
      (chosen.coupler !== undefined || mounting !== undefined) &&
      statement(
        "coupler",
        wordArg("coupler", coupler, known?.coupler?.name),
        optionalWord("mounting", mounting ?? known?.mounting, known?.mounting),
      ),
    feeder !== undefined &&
      (chosen.feeder !== undefined || feederLength) &&
      statement(
        "feeder",
        wordArg("feeder", feeder, known?.feeder?.name),
        labelled("length", feederLength, known?.feederLengthM) ?? {
          name: "length",
          label: "length",
          text: "?",
        },
      ),
    transmitsStatement(row, hasChannel, known),
    power && statement("power", figureArg("level", power, known?.transmitPowerDbm)),
    extraLoss && statement("extra-loss", figureArg("value", extraLoss, known?.extraLossDb)),
  ]);
}

/** The half says the frequency where there is a channel; a list may have both. */
function transmitsStatement(
  { transmits, frequency }: Omit<EndRow, "site">,
  hasChannel: boolean,
  known: HopEnd | undefined,
): Statement | undefined {
  if (transmits !== undefined && (hasChannel || !frequency))
    return statement("transmits", wordArg("value", transmits, known?.transmits));
  if (!frequency || (known?.transmits !== undefined && hasChannel)) return undefined;
  return statement("transmits", figureArg("value", frequency, known?.transmitFrequencyHz));
}

function telling(isKnown: boolean, statements: readonly (Statement | false | undefined)[]): Statement[] {
  return statements
    .filter((one) => one !== false && one !== undefined)
    .filter(({ args }) => !isKnown || args.some(({ changed }) => changed));
}

function wordArg(name: string, text: string, was: string | undefined): StatementArg {
  return { name, text, changed: text === was ? undefined : true };
}

function optionalWord(
  name: string,
  text: string | undefined,
  was: string | undefined,
): StatementArg | undefined {
  return text === undefined ? undefined : wordArg(name, text, was);
}

function figureArg(name: string, figure: Figure, was: number | undefined): StatementArg {
  return { name, text: figureText(figure), changed: isSameFigure(was, figure) ? undefined : true };
}

function labelled(
  label: string,
  figure: Figure | undefined,
  was: number | undefined,
): StatementArg | undefined {
  if (figure) return { ...figureArg(label, figure, was), label };
  return was === undefined ? undefined : { name: label, label, text: `${was} m` };
}

/** What a list that came out has lost by its rounding: half of the last decimal that it writes. */
const LIST_ROUNDS_BY = 0.51e-4;
const LIST_ROUNDS_HZ_BY = 0.51;

export function isSameFigure(was: number | undefined, { value, unit }: Figure): boolean {
  const rounding = unit.endsWith("Hz") ? LIST_ROUNDS_HZ_BY : LIST_ROUNDS_BY;
  return was !== undefined && Math.abs(was - value) <= Math.max(rounding, Math.abs(value) * 1e-12);
}

/** A position with fewer digits that says the same place moves nothing. */
function isMoved(
  was: Site["position"],
  { latitudeDeg, longitudeDeg, stepDeg }: StatedPosition,
): true | undefined {
  const same = (a: number, b: number) => Math.abs(a - b) <= (stepDeg / 2) * (1 + 1e-6) + 1e-12;
  return was && same(was.latitudeDeg, latitudeDeg) && same(was.longitudeDeg, longitudeDeg) ? undefined : true;
}

/** A tenth of a millimetre. */
const MOST_DECIMALS = 9;

function positionText({ latitudeDeg, longitudeDeg, secondDecimals }: StatedPosition): string {
  if (secondDecimals !== undefined)
    return `${formatDms(latitudeDeg, "latitude", secondDecimals)} ${formatDms(longitudeDeg, "longitude", secondDecimals)}`;
  return `${trimmed(latitudeDeg, MOST_DECIMALS)} ${trimmed(longitudeDeg, MOST_DECIMALS)}`;
}
