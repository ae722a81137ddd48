import { address } from "../design/address.js";
import type { HalfOfBand, Hop } from "../design/design.js";
import { halfOf } from "../radio/halves.js";
import { exampleHop } from "./example-preamble.js";
import type { NetworkRule, Report } from "./rule.js";

interface Use {
  readonly hop: Hop;
  readonly half: HalfOfBand;
}

export const siteHighAndLow: NetworkRule = {
  scope: "network",
  id: "site-high-and-low",
  severity: "error",
  title: "A site transmits in one half of a band only",
  checks: "The halves of all transmitters of a site within one channel plan (without a plan: of one radio).",
  why: "A strong local transmitter in the half that another unit of the site receives drowns it; administrations ask for one half a site.",
  fix: "Exchange the halves of the hop, or change its band. A ring of an odd number of sites needs a change of band somewhere.",
  source: "common practice",
  good: exampleHop(),
  bad: `site MOSS {\n  at 47.45 -30.45\n}\n\n${exampleHop()}\n\n${exampleHop()
    .replaceAll("TARN", "MOSS")
    .replace("transmits high", "transmits x")
    .replace("transmits low", "transmits high")
    .replace("transmits x", "transmits low")}`,
  check({ design, report }) {
    const mixed = mixedPlaces(design.hops.values());
    if (mixed.size === 0) return;
    for (const [site, bands] of usesAt(mixed, design.hops.values())) {
      for (const [band, uses] of bands) {
        const high = uses.filter(({ half }) => half === "high");
        const low = uses.filter(({ half }) => half === "low");
        const [odd, rest] = high.length < low.length ? [high, low] : [low, high];
        for (const { hop, half } of odd) report(conflict(site, band, hop, half, rest), hop.name);
      }
    }
  },
};

function conflict(site: string, band: string, hop: Hop, half: HalfOfBand, rest: readonly Use[]): Report {
  return {
    at: address("hop", hop.name, site, "transmits"),
    message: `${site} transmits ${half} here and ${rest[0]!.half} in ${names(rest)} (${band})`,
    related: rest.slice(0, TOLD).map((use) => ({
      at: address("hop", use.hop.name, site, "transmits"),
      message: `transmits ${use.half}`,
    })),
  };
}

const HIGH = 1;
const LOW = 2;

/** Sites, and their bands, in which both halves are transmitted. One look at every hop, nothing kept of the others. */
function mixedPlaces(hops: Iterable<Hop>): Map<string, Set<string>> {
  const seen = new Map<string, Map<string, number>>();
  const mixed = new Map<string, Set<string>>();
  for (const hop of hops) {
    const band = bandOf(hop);
    if (band === undefined) continue;
    for (const end of hop.ends) {
      const half = halfOf(end, hop.radio);
      if (half === undefined) continue;
      const site = end.site.name;
      let bands = seen.get(site);
      if (bands === undefined) seen.set(site, (bands = new Map()));
      const halves = (bands.get(band) ?? 0) | (half === "high" ? HIGH : LOW);
      bands.set(band, halves);
      if (halves === (HIGH | LOW)) mixed.set(site, (mixed.get(site) ?? new Set()).add(band));
    }
  }
  return mixed;
}

function usesAt(
  places: ReadonlyMap<string, ReadonlySet<string>>,
  hops: Iterable<Hop>,
): Map<string, Map<string, Use[]>> {
  const found = new Map<string, Map<string, Use[]>>();
  for (const hop of hops) {
    const band = bandOf(hop);
    for (const end of hop.ends) {
      const site = end.site.name;
      const half = halfOf(end, hop.radio);
      if (band === undefined || half === undefined || !places.get(site)?.has(band)) continue;
      const bands = found.get(site) ?? new Map<string, Use[]>();
      const uses = bands.get(band) ?? [];
      uses.push({ hop, half });
      found.set(site, bands.set(band, uses));
    }
  }
  return found;
}

function bandOf(hop: Hop): string | undefined {
  return hop.channel?.plan ?? hop.radio?.name;
}

/** So many hops are named; the others are counted. */
const TOLD = 3;

function names(uses: readonly Use[]): string {
  const told = uses
    .slice(0, TOLD)
    .map(({ hop }) => hop.name)
    .join(", ");
  return uses.length > TOLD ? `${told} and ${uses.length - TOLD} more` : told;
}
