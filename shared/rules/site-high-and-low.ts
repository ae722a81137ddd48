import { address } from "../design/address.js";
import type { HalfOfBand, Hop, HopEnd } from "../design/design.js";
import { exampleHop } from "./example-preamble.js";
import { halfOf } from "./halves.js";
import type { NetworkRule } from "./rule.js";

interface Use {
  readonly hop: Hop;
  readonly end: HopEnd;
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
    for (const [place, uses] of usesByPlace(design.hops.values())) {
      const high = uses.filter(({ half }) => half === "high");
      const low = uses.filter(({ half }) => half === "low");
      if (high.length === 0 || low.length === 0) continue;
      const [odd, rest] = high.length < low.length ? [high, low] : [low, high];
      const [site, band] = place.split("\n");
      for (const { hop, half } of odd) {
        const message = `${site} transmits ${half} here and ${rest[0]!.half} in ${names(rest)} (${band})`;
        report(
          {
            at: address("hop", hop.name, site!, "transmits"),
            message,
            related: rest.slice(0, 3).map((use) => ({
              at: address("hop", use.hop.name, site!, "transmits"),
              message: `transmits ${use.half}`,
            })),
          },
          hop.name,
        );
      }
    }
  },
};

/** Transmitters by site and band. */
function usesByPlace(hops: Iterable<Hop>): Map<string, Use[]> {
  const places = new Map<string, Use[]>();
  for (const hop of hops) {
    const band = hop.channel?.plan ?? hop.radio?.name;
    if (band === undefined) continue;
    for (const end of hop.ends) {
      const half = halfOf(end, hop.radio);
      if (half === undefined) continue;
      const place = `${end.site.name}\n${band}`;
      const uses = places.get(place);
      if (uses === undefined) places.set(place, [{ hop, end, half }]);
      else uses.push({ hop, end, half });
    }
  }
  return places;
}

function names(uses: readonly Use[]): string {
  const told = uses
    .slice(0, 3)
    .map(({ hop }) => hop.name)
    .join(", ");
  return uses.length > 3 ? `${told} and ${uses.length - 3} more` : told;
}
