import { address } from "../design/address.js";
import type { HalfOfBand, Hop } from "../design/design.js";
import type { SitePlan } from "../equipment/site-plan.js";
import { halfOf } from "../radio/halves.js";
import { exampleHop } from "./example-preamble.js";
import { exchangeHalves } from "./fixes/halves.js";
import type { Report, SiteRule } from "./rule.js";

interface Use {
  readonly hop: Hop;
  readonly half: HalfOfBand;
}

export const siteHighAndLow: SiteRule = {
  scope: "network",
  each: "site",
  id: "site-high-and-low",
  severity: "error",
  title: "A site transmits in one half of a band only",
  checks: "The halves of all transmitters of a site within one channel plan (without a plan: of one radio).",
  why: "A strong local transmitter in the half that another unit of the site receives drowns it; administrations ask for one half a site.",
  fix: "Exchange the halves of the hop, or change its band. A ring of an odd number of sites needs a change of band somewhere.",
  source: "common practice",
  fixes: exchangeHalves,
  good: exampleHop(),
  bad: `site MOSS {\n  at 47.45 -30.45\n}\n\n${exampleHop()}\n\n${exampleHop()
    .replaceAll("TARN", "MOSS")
    .replace("transmits high", "transmits x")
    .replace("transmits low", "transmits high")
    .replace("transmits x", "transmits low")}`,
  check({ plan, report }) {
    // One end alone mixes nothing.
    if (plan.ends.length < 2) return;
    for (const [band, uses] of usesOf(plan)) {
      const high = uses.filter(({ half }) => half === "high");
      const low = uses.filter(({ half }) => half === "low");
      const [odd, rest] = high.length < low.length ? [high, low] : [low, high];
      if (rest.length === 0) continue;
      for (const { hop, half } of odd) report(conflict(plan.site.name, band, hop, half, rest), hop.name);
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

/** By band. */
function usesOf({ ends }: SitePlan): Map<string, Use[]> {
  const bands = new Map<string, Use[]>();
  for (const { hop, end } of ends) {
    const band = bandOf(hop);
    const half = halfOf(end, hop.radio);
    if (band === undefined || half === undefined) continue;
    const uses = bands.get(band);
    if (uses) uses.push({ hop, half });
    else bands.set(band, [{ hop, half }]);
  }
  return bands;
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
