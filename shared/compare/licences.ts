/** What an administration was told of each transmission, and what of it is no longer true. */
import type { Hop } from "../design/design.js";
import { bandwidth, dbm, degrees, frequency, metres, trimmed } from "../format/numbers.js";
import { arrangementByName } from "../radio/arrangements.js";
import { type Carrier, carriersOf } from "../rules/carriers.js";
import type { EvaluatedHop } from "./consequences.js";

export interface LicenceChange {
  readonly hop: string;
  /** Transmitting site. */
  readonly site: string;
  readonly action: "license" | "amend" | "cancel";
  /** For example `18.565 GHz, 55 MHz, vertical`. */
  readonly transmission: string;
  /** Figures that differ, when it is amended. */
  readonly figures: readonly { readonly label: string; readonly was?: string; readonly is?: string }[];
}

/** Two sides of one hop; undefined where it does not exist or cannot be evaluated. */
export function licenceChanges(
  was: EvaluatedHop | undefined,
  is: EvaluatedHop | undefined,
  siteNow: (site: string) => string,
): LicenceChange[] {
  const before = new Map(
    (was ? transmissionsOf(was) : []).map((one) => [`${siteNow(one.site)} ${one.carrier}`, one]),
  );
  const changes: LicenceChange[] = [];
  for (const now of is ? transmissionsOf(is) : []) {
    const key = `${now.site} ${now.carrier}`;
    const then = before.get(key);
    before.delete(key);
    if (!then) changes.push(change(now, "license"));
    else {
      const figures = now.figures
        .map(({ label, text, value, step }, index) => {
          const old = then.figures[index]!;
          const same =
            value === undefined || old.value === undefined || step === undefined
              ? text === old.text
              : Math.abs(value - old.value) < step * (1 - 5e-7);
          return same ? undefined : { label, was: old.text, is: text };
        })
        .filter((figure) => figure !== undefined);
      if (figures.length > 0) changes.push({ ...change(now, "amend"), figures });
    }
  }
  for (const then of before.values()) changes.push(change(then, "cancel"));
  return changes;
}

interface Transmission {
  readonly hop: string;
  readonly site: string;
  /** Channel of the hop that it is on, from 0. */
  readonly carrier: number;
  readonly summary: string;
  readonly figures: readonly {
    readonly label: string;
    readonly text?: string;
    readonly value?: number;
    readonly step?: number;
  }[];
}

/** One an end and carrier. Without a frequency there is nothing to license yet. */
function transmissionsOf(hop: EvaluatedHop): Transmission[] {
  return hop.hop.ends.flatMap((end, index) =>
    carriersOf(hop.hop, end).map((carrier, number) => transmissionOf(hop, index as 0 | 1, carrier, number)),
  );
}

function transmissionOf(
  { hop, result }: EvaluatedHop,
  index: 0 | 1,
  { frequencyHz, widthHz }: Carrier,
  carrier: number,
): Transmission {
  const { site, antenna, antennaHeightM } = hop.ends[index];
  const eirpDbm = result.directions.find(({ from }) => from === site.name)?.eirpDbm;
  const azimuthDeg = result.geometry?.[index]?.azimuthDeg;
  const figures = [
    { label: "frequency", text: frequency(frequencyHz) },
    { label: "bandwidth", text: widthHz === undefined ? undefined : bandwidth(widthHz) },
    { label: "polarization", text: polarizationText(hop, carrier) },
    { label: "EIRP", text: eirpDbm === undefined ? undefined : dbm(eirpDbm), value: eirpDbm, step: 0.1 },
    { label: "antenna", text: antenna?.name },
    { label: "antenna height", text: antennaHeightM === undefined ? undefined : metres(antennaHeightM) },
    {
      label: "azimuth",
      text: azimuthDeg === undefined ? undefined : degrees(azimuthDeg),
      value: azimuthDeg,
      step: 0.01,
    },
    { label: "position", text: positionText(hop, index) },
  ];
  const summary = figures
    .slice(0, 3)
    .flatMap(({ text }) => text ?? [])
    .join(", ");
  return { hop: hop.name, site: site.name, carrier, summary, figures };
}

/** Two carriers on one channel use both polarizations; with a channel each they take turns. */
function polarizationText({ arrangement, polarization }: Hop, carrier: number): string | undefined {
  const facts = arrangementByName(arrangement.name);
  if (facts?.polarizations !== 2) return polarization;
  const other = polarization === "vertical" ? "horizontal" : "vertical";
  if (facts.xpicPairs > 0 || facts.frequencyPairs === 1)
    return `${polarization ?? "horizontal"} and ${other}`;
  // Which of its carriers has which is for the design to state.
  if (polarization === undefined) return undefined;
  return carrier === 0 ? polarization : other;
}

/** To about a metre, as licences state it. */
function positionText({ ends }: Hop, index: number): string | undefined {
  const position = ends[index]?.site.position;
  return position && `${trimmed(position.latitudeDeg, 5)} ${trimmed(position.longitudeDeg, 5)}`;
}

function change(transmission: Transmission, action: LicenceChange["action"]): LicenceChange {
  const { hop, site, summary } = transmission;
  return { hop, site, action, transmission: summary, figures: [] };
}
