/** Rows of the licence schedule: of the sites of a hop, and of what they send, with what was granted where it differs. */
import type { Hop } from "../../../design/design.js";
import type { Licence } from "../../../design/licence.js";
import type { HopResult } from "../../../evaluate/account/result.js";
import { bandwidth, dbi, dbm, decibels, fixed, frequency, metres } from "../../../format/numbers.js";
import { formatDms, type LatLon } from "../../../geodesy/coordinates.js";
import { inverse } from "../../../geodesy/geodesic.js";
import type { Departure } from "../../../licence/departures.js";
import type { Held } from "../../../licence/held.js";
import type { Transmission } from "../../../licence/transmissions.js";
import { isReliable, STANDINGS } from "../../../spectrum/standing.js";
import { type Inline, type Span, spansOf, type TableRow } from "../../document/document.js";
import type { SheetWords } from "../words/sheet-words.js";

/** A column an end. */
export function placeRows(hop: Hop, all: readonly Held[], words: SheetWords): readonly TableRow[] {
  const { licences: said } = words.desk;
  const row = (label: string, of: (at: 0 | 1) => Inline | undefined): TableRow => ({
    cells: [labelOf(label), ...([0, 1] as const).map((at): Inline => of(at) ?? notStated(words))],
  });
  const site = (at: 0 | 1) => hop.ends[at].site;
  return [
    row(said.position, (at) => told(site(at).position, (place) => dms(place, words))),
    row(said.positionDecimal, (at) => told(site(at).position, (place) => decimal(place, words))),
    row(said.ground, (at) => {
      const sent = all.find((one) => one.sent.at === at)?.sent;
      const text = told(sent?.groundM ?? site(at).groundM, (heightM) => words.figure(metres(heightM)));
      if (text === undefined || site(at).groundM !== undefined) return text;
      return [text, quiet(said.fromTerrain)];
    }),
  ];
}

interface SentRowsInput {
  readonly hop: Hop;
  /** A column each. */
  readonly those: readonly Held[];
  /** Of the hop: the far end sends what is received. */
  readonly all: readonly Held[];
  readonly result?: HopResult;
  readonly words: SheetWords;
}

/** What no column has and nobody has to state is left out; all else that is missing says so. */
export function sentRows({ hop, those, all, result, words }: SentRowsInput): readonly TableRow[] {
  const { licences: said } = words.desk;
  const { figure } = words;
  type Of = (held: Held) => Inline | undefined;
  const row = (label: string, of: Of, ...granted: readonly Departure["figure"][]): TableRow => ({
    cells: [
      labelOf(label),
      ...those.map((held): Inline => withGranted(of(held) ?? notStated(words), held, granted, words)),
    ],
  });
  const whereAny = (label: string, of: Of): TableRow[] => {
    const found = those.map(of);
    if (found.every((one) => one === undefined)) return [];
    return [{ cells: [labelOf(label), ...found.map((one) => one ?? "–")] }];
  };
  const isEstimated = ({ sent }: Held) => hasEstimatedGuide(result, sent.site);
  return [
    row(said.frequency, ({ sent }) => figure(frequency(sent.frequencyHz)), "frequency"),
    row(said.receives, ({ sent }) => {
      const far = all.find((one) => one.sent.at !== sent.at && one.sent.carrier === sent.carrier);
      return far && figure(frequency(far.sent.frequencyHz));
    }),
    row(said.channel, ({ sent }) => channelText(sent, words)),
    row(
      said.bandwidth,
      ({ sent }) =>
        both(
          told(sent.bandwidthHz, (hz) => figure(bandwidth(hz))),
          sent.emission,
          words,
        ),
      "bandwidth",
      "emission",
    ),
    row(
      said.polarization,
      ({ sent }) => sent.polarization && words.polarizations[sent.polarization],
      "polarization",
    ),
    row(said.power, ({ sent }) => told(sent.powerDbm, (power) => inBoth(power, words))),
    ...whereAny(said.control, ({ sent }) => {
      if (sent.reductionDb !== undefined) return figure(decibels(sent.reductionDb));
      return hop.ends[sent.at].powerControl === undefined ? undefined : said.controlOn;
    }),
    row(said.loss, (held) =>
      told(held.sent.lossDb, (lossDb): Inline => {
        const text = figure(decibels(lossDb));
        return isEstimated(held) ? [text, quiet(said.estimated)] : text;
      }),
    ),
    row(
      said.antenna,
      ({ sent }) =>
        both(
          sent.antenna,
          told(sent.antennaHeightM, (heightM) => figure(metres(heightM))),
          words,
        ),
      "antenna",
      "height",
    ),
    row(said.gain, ({ sent }) =>
      both(
        told(sent.gainDbi, (gain) => figure(dbi(gain))),
        told(sent.beamwidthDeg, (deg) => angle(deg, words)),
        words,
      ),
    ),
    row(said.eirp, ({ sent }) => told(sent.greatestEirpDbm, (power) => inBoth(power, words)), "EIRP"),
    ...whereAny(said.eirpControlled, ({ sent }) =>
      told(sent.controlledEirpDbm, (power) => inBoth(power, words)),
    ),
    ...whereAny(
      said.standbyAntenna,
      ({ sent: { standby } }) =>
        standby &&
        [standby.antenna, told(standby.antennaHeightM, (heightM) => figure(metres(heightM)))]
          .filter((word) => word !== undefined)
          .join(", "),
    ),
    row(said.directed, ({ sent }) =>
      both(
        told(sent.azimuthDeg, (deg) => angle(deg, words)),
        told(sent.elevationDeg, (deg) => angle(deg, words)),
        words,
      ),
    ),
    ...licenceRows(those, words),
  ];
}

function licenceRows(those: readonly Held[], words: SheetWords): TableRow[] {
  const { licences: said } = words.desk;
  const cells = (of: (licence: Licence) => string) =>
    those.map(({ licence }): Inline => {
      return licence === undefined ? { text: said.notLicensed, mark: "unjudged" } : of(licence);
    });
  const lasts = ({ since, until }: Licence) =>
    [
      since === undefined ? undefined : `${words.common.from} ${words.day(since)}`,
      until === undefined ? said.noEnd : `${words.common.to} ${words.day(until)}`,
    ]
      .filter((word) => word !== undefined)
      .join(" ");
  return [{ cells: [labelOf(said.licence), ...cells((one) => `${one.number}, ${lasts(one)}`)] }];
}

/** The granted figure beside the design's where they differ. */
function withGranted(
  is: Inline,
  { licence, departures }: Held,
  figures: readonly Departure["figure"][],
  words: SheetWords,
): Inline {
  if (licence === undefined) return is;
  const { licences: said } = words.desk;
  const granted = departures
    .filter(({ figure }) => figures.includes(figure))
    .flatMap(({ figure }): Span[] => [
      " ",
      { text: `${said.granted} ${grantedText(figure, licence, words)}`, mark: "error" },
    ]);
  return granted.length === 0 ? is : [...spansOf(is), ...granted];
}

/** `frequency: 18.93 GHz, granted 18.95 GHz` */
export function departureText(
  { figure }: Departure,
  sent: Transmission,
  licence: Licence,
  words: SheetWords,
): string {
  const { licences: said } = words.desk;
  const is = sentText(figure, sent, words);
  const apart =
    figure === "position" && licence.position && sent.position
      ? `, ${said.metresApart(words.figure(metres(inverse({ from: licence.position, to: sent.position }).distanceM)))}`
      : "";
  return `${said.figures[figure]}: ${is}, ${said.granted} ${grantedText(figure, licence, words)}${apart}`;
}

function grantedText(figure: Departure["figure"], licence: Licence, words: SheetWords): string {
  const { bandwidthHz, emission, eirpDbm } = licence;
  const found =
    figure === "bandwidth"
      ? (told(bandwidthHz, (hz) => words.figure(bandwidth(hz))) ?? emission)
      : figure === "emission"
        ? emission
        : figure === "EIRP"
          ? told(eirpDbm, (power) => inBoth(power, words))
          : ofBoth(figure, licence, words);
  return found ?? words.common.notStated;
}

function sentText(figure: Departure["figure"], sent: Transmission, words: SheetWords): string {
  const { bandwidthHz, emission, greatestEirpDbm } = sent;
  const found =
    figure === "bandwidth"
      ? told(bandwidthHz, (hz) => words.figure(bandwidth(hz)))
      : figure === "emission"
        ? emission
        : figure === "EIRP"
          ? told(greatestEirpDbm, (power) => inBoth(power, words))
          : ofBoth(figure, sent, words);
  return found ?? words.common.notStated;
}

type Both = Pick<Licence, "frequencyHz" | "polarization" | "antenna" | "antennaHeightM" | "position">;

function ofBoth(
  figure: Exclude<Departure["figure"], "bandwidth" | "emission" | "EIRP">,
  { frequencyHz, polarization, antenna, antennaHeightM, position }: Both,
  words: SheetWords,
): string | undefined {
  switch (figure) {
    case "frequency":
      return told(frequencyHz, (hz) => words.figure(frequency(hz)));
    case "polarization":
      return polarization && words.polarizations[polarization];
    case "antenna":
      return antenna;
    case "height":
      return told(antennaHeightM, (heightM) => words.figure(metres(heightM)));
    case "position":
      return told(position, (place) => dms(place, words));
  }
}

/** With a star where the plan is not confirmed: see the note below the table. */
function channelText({ channel, half }: Transmission, words: SheetWords): string | undefined {
  if (channel === undefined) return undefined;
  const { plan, bandwidthHz, number } = channel;
  const width = words.figure(bandwidth(bandwidthHz));
  const text = `${plan} / ${width} / ${number}${half === undefined ? "" : `, ${words.desk.halves[half]}`}`;
  return isReliable(channel, number) ? text : `${text} *`;
}

/** Standings of the plans of its channels that are not to be relied upon, each once. */
export function unconfirmedPlans(all: readonly Held[], { desk }: SheetWords): readonly string[] {
  const found = all.flatMap(({ sent: { channel } }): string[] => {
    if (channel === undefined || isReliable(channel, channel.number)) return [];
    return [desk.standings[STANDINGS[channel.standing].reliable ? "memory" : channel.standing]];
  });
  return [...new Set(found)];
}

/** A guide on its way that is still to be chosen has the usual loss of its band. */
function hasEstimatedGuide(result: HopResult | undefined, site: string): boolean {
  const levels = result?.directions.find(({ from }) => from === site)?.levels ?? [];
  return levels.some((row) => row.site === site && row.passes.code === "guide-to-choose");
}

function inBoth(powerDbm: number, { figure }: SheetWords): string {
  return figure(`${dbm(powerDbm)}, ${decibels(powerDbm - 30)}W`);
}

function angle(angleDeg: number, { figure }: SheetWords): string {
  return figure(`${fixed(angleDeg, 2)}°`);
}

function dms({ latitudeDeg, longitudeDeg }: LatLon, { figure }: SheetWords): string {
  return figure(`${formatDms(latitudeDeg, "latitude")} ${formatDms(longitudeDeg, "longitude")}`);
}

/** Six decimals are a tenth of a metre; north and east are positive. */
function decimal({ latitudeDeg, longitudeDeg }: LatLon, { figure }: SheetWords): string {
  return figure(`${fixed(latitudeDeg, 6)}° / ${fixed(longitudeDeg, 6)}°`);
}

/** In one line, whatever else the table holds. */
function labelOf(text: string): Inline {
  return { text: text.replaceAll(" ", "\u00a0"), mark: "quiet" };
}

/** Of two figures in one cell the one that lacks says so; where both do, the cell does. */
function both(
  one: string | undefined,
  other: string | undefined,
  { common }: SheetWords,
): string | undefined {
  if (one === undefined && other === undefined) return undefined;
  return `${one ?? common.notStated}, ${other ?? common.notStated}`;
}

function quiet(text: string): Span {
  return { text: ` (${text})`, mark: "quiet" };
}

function notStated({ common }: SheetWords): Inline {
  return { text: common.notStated, mark: "unjudged" };
}

function told<T, R>(value: T | undefined, write: (value: T) => R): R | undefined {
  return value === undefined ? undefined : write(value);
}
