/** A list of others' transmissions as a register would have it: the same land, the same bands, other sites. */
import { randomNumbers } from "../random.js";
import { BANDS } from "./catalogue.js";
import { linkedSites } from "./links.js";

/** Names the list beside the network's own files. */
export const OTHERS_STATEMENT = `others "register.csv" {
  latitude "lat"
  longitude "lon"
  antenna-height "height" in m
  antenna-gain "gain" in dBi
  frequency "frequency" in MHz
  bandwidth "bandwidth" in MHz
  polarization "polarization"
  eirp "eirp" in dBm
  receiver-latitude "rx lat"
  receiver-longitude "rx lon"
  receiver-antenna-height "rx height" in m
  receiver-antenna-gain "rx gain" in dBi
}
`;

const HEADS = "lat,lon,height,gain,frequency,bandwidth,polarization,eirp,rx lat,rx lon,rx height,rx gain";

/** Both directions of half as many hops. @param areaDeg side of the square that holds them */
export function othersText(transmissions: number, areaDeg: number, seed = 11): string {
  const hops = Math.ceil(transmissions / 2);
  const { links } = linkedSites(seed, Math.round(hops * 0.9), hops, areaDeg);
  const random = randomNumbers(seed + 1);
  const rows = links.flatMap(({ from, to, lengthKm, heightM, fromHigh }) => {
    const band = BANDS.find(({ reachKm }) => lengthKm <= reachKm)!;
    const diameterM = band.diametersM.at(-1)!;
    const gain = (20 * Math.log10(diameterM * band.lowGHz) + 17.8).toFixed(1);
    const eirp = (Number(gain) + band.powerDbm - 2).toFixed(1);
    const lowMHz = band.lowGHz * 1000 + (0.5 + Math.floor(random() * band.channels)) * band.widthMHz;
    const polarization = random() < 0.3 ? "H" : "V";
    return ([[from, to, fromHigh] as const, [to, from, !fromHigh] as const] as const).map(([tx, rx, high]) =>
      [
        tx.latitudeDeg.toFixed(5),
        tx.longitudeDeg.toFixed(5),
        heightM,
        gain,
        (high ? lowMHz + band.duplexMHz : lowMHz).toFixed(3),
        band.widthMHz,
        polarization,
        eirp,
        rx.latitudeDeg.toFixed(5),
        rx.longitudeDeg.toFixed(5),
        heightM,
        gain,
      ].join(","),
    );
  });
  return `${[HEADS, ...rows].join("\n")}\n`;
}
