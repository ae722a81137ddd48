/** What an administration was told of each transmission, and what of it is no longer true. */
import type { Hop } from "../design/design.js";
import { bandwidth, dbm, degrees, frequency, metres, trimmed } from "../format/numbers.js";
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
  const before = new Map((was ? transmissionsOf(was) : []).map((one) => [siteNow(one.site), one]));
  const changes: LicenceChange[] = [];
  for (const now of is ? transmissionsOf(is) : []) {
    const then = before.get(now.site);
    before.delete(now.site);
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
  readonly summary: string;
  readonly figures: readonly {
    readonly label: string;
    readonly text?: string;
    readonly value?: number;
    readonly step?: number;
  }[];
}

/** A transmission without a frequency is nothing to license yet. */
function transmissionsOf({ hop, result }: EvaluatedHop): Transmission[] {
  return hop.ends.flatMap((end, index): Transmission[] => {
    const { site, transmitFrequencyHz, antenna, antennaHeightM } = end;
    if (transmitFrequencyHz === undefined) return [];
    const widthHz = hop.channel?.bandwidthHz ?? hop.modes.at(-1)?.bandwidthHz;
    const eirpDbm = result.directions.find(({ from }) => from === site.name)?.eirpDbm;
    const azimuthDeg = result.geometry?.[index]?.azimuthDeg;
    const figures = [
      { label: "frequency", text: frequency(transmitFrequencyHz) },
      { label: "bandwidth", text: widthHz === undefined ? undefined : bandwidth(widthHz) },
      { label: "polarization", text: hop.polarization },
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
    return [{ hop: hop.name, site: site.name, summary, figures }];
  });
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
