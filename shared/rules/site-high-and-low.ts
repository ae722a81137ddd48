import { address } from "../design/address.js";
import type { HalfOfBand, Hop } from "../design/design.js";
import type { HopInNetwork } from "../network/in-network.js";
import type { SiteInNetwork } from "../network/sites.js";
import { bandOf, firstHalfOf, halfOf } from "../radio/halves.js";
import { exampleHop } from "./example-preamble.js";
import { exchangeFewest } from "./fixes/halves.js";
import type { NetworkRule, Report } from "./rule.js";
import { ringWords, settledByHop, settledWords } from "./settled-bands.js";

interface Use {
  readonly hop: Hop;
  readonly half: HalfOfBand;
}

export const siteHighAndLow: NetworkRule = {
  scope: "network",
  id: "site-high-and-low",
  severity: "error",
  title: "A site transmits in one half of a band only",
  checks:
    "The halves of all transmitters of a site within one channel plan (without a plan: of one radio). A ring of an odd number of hops whose halves are still open is a warning: whatever they will be, one of its sites transmits both.",
  why: "A strong local transmitter in the half that another unit of the site receives drowns it; administrations ask for one half a site.",
  fix: "Exchange the halves of the hops that are named, the fewest that settle all that hangs together. A ring of an odd number of hops needs a change of band: the finding names its hops, and which of them would open it.",
  source: "common practice",
  fixes: exchangeFewest,
  good: exampleHop(),
  bad: `site MOSS {\n  at 47.45 -30.45\n}\n\n${exampleHop()}\n\n${exampleHop()
    .replaceAll("TARN", "MOSS")
    .replace("transmits high", "transmits x")
    .replace("transmits low", "transmits high")
    .replace("transmits x", "transmits low")}`,
  check({ hops, sites, memory, report }) {
    const mixed = memory.each(MIXED, [...sites.values()], mixedAt).flat();
    const open = new Set(memory.each(OPEN, hops, nameOfOpen));
    open.delete(undefined);
    if (mixed.length === 0 && open.size === 0) return;
    const settled = settledByHop(hops.map(({ hop }) => hop));
    for (const { site, band, odd, rest } of mixed)
      for (const { hop, half } of odd) {
        const found = settled.get(hop.name);
        const help = found && settledWords(found);
        report({ ...conflict(site, band, hop, half, rest), ...(help && { help }) }, hop.name);
      }
    if (open.size === 0) return;
    for (const found of new Set(settled.values())) {
      const { hops } = found.ring ?? { hops: [] };
      const first = hops.find((name) => open.has(name));
      if (first === undefined) continue;
      report(
        {
          at: address("hop", first),
          about: `ring ${hops.toSorted().join(" ")}`,
          severity: "warning",
          message: `${first} is in a ring of ${hops.length} hops in ${found.band}, an odd number: whatever their halves, one of its sites transmits both`,
          help: ringWords(found),
          related: hops
            .filter((name) => name !== first)
            .map((name) => ({ at: address("hop", name), message: "in the same ring" })),
        },
        first,
      );
    }
  },
};

interface Mixed {
  readonly site: string;
  readonly band: string;
  /** Those in the half that fewer use here. */
  readonly odd: readonly Use[];
  readonly rest: readonly Use[];
}

const MIXED = {};
const OPEN = {};
const NONE: readonly Mixed[] = [];

function mixedAt({ plan: { site, ends } }: SiteInNetwork): readonly Mixed[] {
  // One end alone mixes nothing.
  if (ends.length < 2) return NONE;
  const uses = ends.flatMap(({ hop, end }) => {
    const [band, half] = [bandOf(hop), halfOf(end, hop.radio)];
    return band === undefined || half === undefined ? [] : [{ hop, band, half }];
  });
  return [...Map.groupBy(uses, ({ band }) => band)].flatMap(([band, all]) => {
    if (all.every(({ half }) => half === all[0]!.half)) return NONE;
    const byName = all.toSorted((a, b) => (a.hop.name < b.hop.name ? -1 : 1));
    const high = byName.filter(({ half }) => half === "high");
    const low = byName.filter(({ half }) => half === "low");
    const [odd, rest] = high.length < low.length ? [high, low] : [low, high];
    return [{ site: site.name, band, odd, rest }];
  });
}

/** Of a hop whose halves are open. */
function nameOfOpen({ hop }: HopInNetwork): string | undefined {
  return bandOf(hop) !== undefined && firstHalfOf(hop) === undefined ? hop.name : undefined;
}

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

/** So many hops are named; the others are counted. */
const TOLD = 3;

function names(uses: readonly Use[]): string {
  const told = uses
    .slice(0, TOLD)
    .map(({ hop }) => hop.name)
    .join(", ");
  return uses.length > TOLD ? `${told} and ${uses.length - TOLD} more` : told;
}
