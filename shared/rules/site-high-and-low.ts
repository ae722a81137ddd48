import { address } from "../design/address.js";
import type { HalfOfBand, Hop } from "../design/design.js";
import { bandOf, firstHalfOf, halfOf } from "../radio/halves.js";
import { exampleHop } from "./example-preamble.js";
import { exchangeFewest } from "./fixes/halves.js";
import { gathering, type Report } from "./rule.js";
import { ringWords, settledByHop, settledWords } from "./settled-bands.js";

interface Use {
  readonly hop: Hop;
  readonly half: HalfOfBand;
}

/** What the ends of a hop transmit in its band; its halves may be open. */
interface Note {
  readonly band: string;
  readonly isOpen: boolean;
  readonly ends: readonly { readonly site: string; readonly half: HalfOfBand }[];
}

export const siteHighAndLow = gathering<Note>({
  scope: "network",
  each: "hop",
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
  note(hop) {
    const band = bandOf(hop);
    if (band === undefined) return undefined;
    const ends = hop.ends.flatMap((end) => {
      const half = halfOf(end, hop.radio);
      return half === undefined ? [] : [{ site: end.site.name, half }];
    });
    return { band, ends, isOpen: firstHalfOf(hop) === undefined };
  },
  tell(noted, { report }) {
    const mixed = mixedSites(noted);
    const isAnyOpen = noted.some(({ note }) => note.isOpen);
    if (mixed.length === 0 && !isAnyOpen) return;
    const settled = settledByHop(noted.map(({ hop }) => hop));
    for (const { site, band, odd, rest } of mixed)
      for (const { hop, half } of odd) {
        const found = settled.get(hop.name);
        const help = found && settledWords(found);
        report({ ...conflict(site, band, hop, half, rest), ...(help && { help }) }, hop.name);
      }
    if (!isAnyOpen) return;
    const open = new Map(noted.flatMap(({ hop, note }) => (note.isOpen ? [[hop.name, hop] as const] : [])));
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
});

interface Mixed {
  readonly site: string;
  readonly band: string;
  /** Those in the half that fewer use here. */
  readonly odd: readonly Use[];
  readonly rest: readonly Use[];
}

function mixedSites(noted: readonly { readonly hop: Hop; readonly note: Note }[]): readonly Mixed[] {
  const uses = new Map<string, Map<string, Use[]>>();
  for (const { hop, note } of noted)
    for (const { site, half } of note.ends) {
      let bands = uses.get(site);
      if (bands === undefined) uses.set(site, (bands = new Map()));
      const known = bands.get(note.band);
      if (known) known.push({ hop, half });
      else bands.set(note.band, [{ hop, half }]);
    }
  return [...uses].flatMap(([site, bands]) =>
    [...bands].flatMap(([band, all]) => {
      // One end alone mixes nothing.
      if (all.every(({ half }) => half === all[0]!.half)) return [];
      const byName = all.toSorted((a, b) => (a.hop.name < b.hop.name ? -1 : 1));
      const high = byName.filter(({ half }) => half === "high");
      const low = byName.filter(({ half }) => half === "low");
      return [
        high.length < low.length
          ? { site, band, odd: high, rest: low }
          : { site, band, odd: low, rest: high },
      ];
    }),
  );
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
