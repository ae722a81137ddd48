/** Rows of the licence schedule: of the sites of a hop, and of what they send. */
import type { Antenna } from "../../../design/catalogue.js";
import type { Hop } from "../../../design/design.js";
import type { Licence } from "../../../design/licence.js";
import { antennasStated } from "../../../equipment/stands.js";
import type { HopResult } from "../../../evaluate/account/result.js";
import { bandwidth, dbi, dbm, decibels, fixed, frequency, metres, trimmed } from "../../../format/numbers.js";
import { formatDms, type LatLon } from "../../../geodesy/coordinates.js";
import type { Held } from "../../../licence/held.js";
import type { Transmission } from "../../../licence/transmissions.js";
import { isReliable, STANDINGS } from "../../../spectrum/standing.js";
import type { Inline, Span, TableRow } from "../../document/document.js";
import { azimuthText } from "../norths.js";
import type { SheetWords } from "../words/sheet-words.js";
import { eirpDigits, isOfStandby, mainEirpDbm, printedLossDb } from "./eirp-terms.js";

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
  const row = (label: string, of: Of): TableRow => ({
    cells: [labelOf(label), ...those.map((held): Inline => of(held) ?? notStated(words))],
  });
  const whereAny = (label: string, of: Of): TableRow[] => {
    const found = those.map(of);
    if (found.every((one) => one === undefined)) return [];
    return [{ cells: [labelOf(label), ...found.map((one) => one ?? "–")] }];
  };
  const isEstimated = ({ sent }: Held) => hasEstimatedGuide(result, sent.site);
  const part = ({ sent }: Held) => antennaOf(hop, sent);
  const digits = new Map(those.map((held) => [held, eirpDigits(held.sent)]));
  const more = (held: Held) => digits.get(held)! - 1;
  return [
    row(said.frequencies, ({ sent }) => {
      const far = all.find((one) => one.sent.at !== sent.at && one.sent.carrier === sent.carrier);
      return both(figure(frequency(sent.frequencyHz)), far && figure(frequency(far.sent.frequencyHz)), words);
    }),
    row(said.channel, ({ sent }) => channelText(sent, words)),
    row(said.bandwidth, ({ sent }) =>
      both(
        told(sent.bandwidthHz, (hz) => figure(bandwidth(hz))),
        sent.emission,
        words,
      ),
    ),
    row(said.polarization, ({ sent }) => sent.polarization && words.polarizations[sent.polarization]),
    row(said.power, (held) =>
      told(
        held.sent.powerDbm,
        (power) => `${inBoth(power, words, more(held))}, ${controlText(hop, held.sent, words)}`,
      ),
    ),
    row(said.loss, (held) =>
      told(printedLossDb(held.sent, digits.get(held)!), (lossDb): Inline => {
        const text = figure(decibels(lossDb, more(held)));
        return isEstimated(held) ? [text, quiet(said.estimated)] : text;
      }),
    ),
    row(said.antenna, (held) => {
      const { antenna, antennaHeightM } = held.sent;
      if (antenna === undefined && antennaHeightM === undefined) return undefined;
      const diameterM = part(held)?.diameterM;
      return [
        antenna ?? words.common.notStated,
        ...(diameterM === undefined ? [] : [figure(`${trimmed(diameterM, 2)} m`)]),
        told(antennaHeightM, (heightM) => figure(metres(heightM))) ?? words.common.notStated,
      ].join(", ");
    }),
    row(said.gain, (held) =>
      both(
        told(held.sent.gainDbi, (gain) => figure(dbi(gain, more(held)))),
        told(held.sent.beamwidthDeg, (deg) => angle(deg, words)),
        words,
      ),
    ),
    row(said.pattern, (held) =>
      both(
        told(part(held)?.crossPolarDiscriminationDb, (value) => figure(decibels(value))),
        told(part(held), (antenna) => patternText(antenna, words)),
        words,
      ),
    ),
    ...whereAny(said.eirpMain, (held) =>
      isOfStandby(held.sent)
        ? told(mainEirpDbm(held.sent), (power) => inBoth(power, words, more(held)))
        : undefined,
    ),
    row(said.eirp, (held) =>
      told(held.sent.greatestEirpDbm, (power): Inline => {
        const text = inBoth(power, words, more(held));
        return isOfStandby(held.sent) ? [text, quiet(said.ofStandby)] : text;
      }),
    ),
    ...whereAny(said.eirpControlled, (held) =>
      told(held.sent.controlledEirpDbm, (power) => inBoth(power, words, more(held))),
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
        told(sent.azimuthDeg, (deg) => words.facts.norths.true(figure(azimuthText(deg, 2)))),
        told(sent.elevationDeg, (deg) => angle(deg, words)),
        words,
      ),
    ),
    ...licenceRows(those, words),
  ];
}

/** The entry of the catalogue. */
function antennaOf(hop: Hop, { at, antennaFact }: Transmission): Antenna | undefined {
  return antennasStated(hop.ends[at]).find(({ fact }) => fact === antennaFact)?.antenna;
}

/** What tells how it sends past its axis. A file is named without the folders that it lies in. */
function patternText(
  { pattern, patternFile, referencePattern }: Antenna,
  { desk }: SheetWords,
): string | undefined {
  const { patterns } = desk.licences;
  if (pattern.length > 0) return patterns.points(pattern.length);
  if (patternFile !== undefined) return patterns.file(patternFile.split(/[\\/]/).at(-1)!);
  return referencePattern && patterns.reference(referencePattern);
}

/** Whether it is used, what it takes off, and how far the radio can. */
function controlText({ ends, radio }: Hop, { at, reductionDb }: Transmission, words: SheetWords): string {
  const { controls: control } = words.desk.licences;
  const stated = ends[at].powerControl;
  const rangeDb = radio?.powerControlRangeDb;
  const range = rangeDb === undefined ? undefined : words.figure(decibels(rangeDb));
  const used =
    stated === undefined || stated.reductionDb === 0
      ? control.off
      : reductionDb === undefined
        ? control.on
        : control.takesOff(words.figure(decibels(reductionDb)));
  return range === undefined ? used : `${used}, ${control.range(range)}`;
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

/** A desk may ask for either unit. */
export function inBoth(powerDbm: number, { figure }: SheetWords, moreDigits = 0): string {
  return figure(`${dbm(powerDbm, moreDigits)}, ${decibels(powerDbm - 30, moreDigits)}W`);
}

function angle(angleDeg: number, { figure }: SheetWords): string {
  return figure(`${fixed(angleDeg, 2)}°`);
}

export function dms({ latitudeDeg, longitudeDeg }: LatLon, { figure }: SheetWords): string {
  return figure(`${formatDms(latitudeDeg, "latitude")} ${formatDms(longitudeDeg, "longitude")}`);
}

/** Six decimals are a tenth of a metre; north and east are positive. */
function decimal({ latitudeDeg, longitudeDeg }: LatLon, { figure }: SheetWords): string {
  return figure(`${fixed(latitudeDeg, 6)}° / ${fixed(longitudeDeg, 6)}°`);
}

/** In one line, whatever else the table holds. */
export function labelOf(text: string): Inline {
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

export function notStated({ common }: SheetWords): Inline {
  return { text: common.notStated, mark: "unjudged" };
}

export function told<T, R>(value: T | undefined, write: (value: T) => R): R | undefined {
  return value === undefined ? undefined : write(value);
}
