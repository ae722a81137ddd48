/** The hops that rows speak of: those of the design, matched by name, else by their two sites, and those that are new. */
import type { Hop } from "../design/design.js";
import type { EndRow, HopEndRow, HopRow, Told } from "./facts.js";
import type { Known } from "./known.js";
import { asName, freeName } from "./names.js";
import type { Paired, Placed } from "./pairing.js";
import { type BookedSite, type SiteBook, staying } from "./site-book.js";

export interface BookedHop {
  readonly name: string;
  readonly known?: Hop;
  /** What the rows say of the hop as a whole. */
  facts: HopRow;
  /** In the order of the rows, or of the design. */
  readonly ends: [BookedEnd, BookedEnd];
}

export interface BookedEnd {
  readonly site: BookedSite;
  facts: Omit<EndRow, "site">;
}

/** A row with the sites that it was found to speak of. */
interface Found {
  readonly row: HopRow;
  readonly a: BookedSite;
  readonly b: BookedSite;
}

export class HopBook {
  readonly hops: BookedHop[] = [];
  private readonly byName = new Map<string, BookedHop>();
  private readonly known: ReadonlyMap<string, Hop>;
  private readonly between: ReadonlyMap<string, readonly Hop[]>;
  private readonly names: Set<string>;

  private readonly gone: ReadonlySet<string>;

  constructor(
    { design: { hops }, gone, hopNames }: Pick<Known, "design" | "gone" | "hopNames">,
    private readonly sites: SiteBook,
    private readonly told: Told[],
  ) {
    this.known = new Map([...hops.values()].map((hop) => [keyOf(hop.name), hop]));
    this.between = Map.groupBy(hops.values(), ({ ends }) => wayOf(ends[0].site.name, ends[1].site.name));
    this.names = new Set(hopNames.map(keyOf));
    this.gone = gone;
  }

  /** Rows that tell a whole hop each; two of them may be its two directions. */
  addHops(rows: readonly HopRow[]): void {
    const found = rows.flatMap((row) => this.placed(row));
    const ways = Map.groupBy(found, ({ a, b }) => wayOf(a.name, b.name));
    for (const way of ways.values()) for (const one of this.together(way)) this.book(one, way.length);
  }

  /** Directions that belong together; @returns of each hop its rows */
  addPairs(pairs: readonly Paired[], siteOf: (name: string) => BookedSite): void {
    const found = pairs.map(
      ({ go, back, crossed }): Found => ({
        row: merged(go, back, crossed),
        a: siteOf(go.a),
        b: siteOf(go.b),
      }),
    );
    const ways = Map.groupBy(found, ({ a, b }) => wayOf(a.name, b.name));
    for (const way of ways.values()) for (const one of way) this.book(one, way.length);
  }

  addEnds(rows: readonly HopEndRow[]): void {
    for (const { from, hop: name, end } of rows) {
      const hop = this.named(name);
      const site = this.sites.named(end.site.name!);
      const booked = hop?.ends.find((one) => one.site === site);
      const tell = (reason: string) => void this.told.push({ from, what: "row", reason });
      if (!hop) tell(`there is no hop ${name} in the design, and no other list has it`);
      else if (!booked)
        tell(
          `${end.site.name} is no end of ${hop.name}; its ends are ${hop.ends[0].site.name} and ${hop.ends[1].site.name}`,
        );
      else booked.facts = filled(booked.facts, factsOf(end));
    }
  }

  /** The sites of a row; none where it says too little, and is told. */
  placed(row: HopRow): Found[] {
    if (!row.ends) {
      const hop = this.named(row.name ?? "");
      if (hop) hop.facts = filled(hop.facts, row);
      else if (this.names.has(keyOf(row.name ?? "")))
        this.tell(
          row,
          "remark",
          `${row.name} has no two ends in the text yet: what the row says of it is left out`,
        );
      else
        this.tell(
          row,
          "row",
          `there is no hop ${row.name} in the design, and the row does not say between which sites it is`,
        );
      return [];
    }
    const a = this.sites.siteOf(row.ends[0].site);
    const b = this.sites.siteOf(row.ends[1].site);
    if (!a || !b) return [];
    if (a === b) {
      this.tell(row, "row", `both ends lie at one place, ${a.name}`);
      return [];
    }
    return [{ row, a, b }];
  }

  /** A hop of the design or of a row before. */
  private named(name: string): BookedHop | undefined {
    const key = keyOf(name);
    const known = this.known.get(key);
    return this.byName.get(key) ?? (known && this.entered(known));
  }

  private entered(known: Hop): BookedHop {
    const end = (index: 0 | 1): BookedEnd => ({
      site: this.sites.named(known.ends[index].site.name)!,
      facts: {},
    });
    return this.enter({ name: known.name, known, facts: EMPTY, ends: [end(0), end(1)] });
  }

  private enter(hop: BookedHop): BookedHop {
    this.hops.push(hop);
    this.byName.set(keyOf(hop.name), hop);
    return hop;
  }

  /** One row from here to there and one back, both without a name or of one name, are one hop. */
  private together(way: readonly Found[]): readonly Found[] {
    const rest = [...way];
    const out: Found[] = [];
    for (let one = rest.shift(); one; one = rest.shift()) {
      const go = one;
      const at = rest.findIndex(
        (other) => other.a === go.b && other.row.name === go.row.name && !contradict(go.row, other.row),
      );
      const back = at < 0 ? undefined : rest.splice(at, 1)[0];
      out.push(
        back
          ? {
              ...go,
              row: merged(
                { row: go.row, a: go.a.name, b: go.b.name },
                { row: back.row, a: back.a.name, b: back.b.name },
              ),
            }
          : go,
      );
    }
    return out;
  }

  private book({ row, a, b }: Found, rowsOfWay: number): void {
    const hop = this.match(row, a, b, rowsOfWay);
    if (hop === "refused") return;
    const [first, second] = row.ends!;
    if (hop) {
      const turned = hop.ends[0].site === b;
      hop.facts = filled(hop.facts, { ...row, ends: undefined });
      hop.ends[turned ? 1 : 0].facts = filled(hop.ends[turned ? 1 : 0].facts, factsOf(first));
      hop.ends[turned ? 0 : 1].facts = filled(hop.ends[turned ? 0 : 1].facts, factsOf(second));
      return;
    }
    const wanted = (row.name === undefined ? undefined : asName(row.name, NO_WORDS)) ?? `${a.name}-${b.name}`;
    const name = freeName(wanted, (one) => this.byName.has(keyOf(one)) || this.names.has(keyOf(one)));
    const booked = this.enter({
      name,
      facts: {
        ...row,
        title: row.title ?? (row.name === undefined || row.name === name ? undefined : row.name),
      },
      ends: [
        { site: a, facts: factsOf(first) },
        { site: b, facts: factsOf(second) },
      ],
    });
    if (row.name !== undefined) this.byName.set(keyOf(row.name), booked);
  }

  /** undefined: it is new. */
  private match(
    row: HopRow,
    a: BookedSite,
    b: BookedSite,
    rowsOfWay: number,
  ): BookedHop | undefined | "refused" {
    const named = row.name === undefined ? undefined : this.named(row.name);
    if (named) {
      const fits = named.ends.every(({ site }) => site === a || site === b);
      if (fits && !(this.isClaimed(named) && !named.known)) return named;
      const ends = named.ends.map(({ site }) => site.name).join(" and ");
      this.tell(
        row,
        "row",
        fits
          ? `${row.name} stands in line ${named.facts.from.line} already`
          : `${named.name} joins ${ends}, not ${a.name} and ${b.name}`,
      );
      return "refused";
    }
    const all = (a.known && b.known && this.between.get(wayOf(a.name, b.name))) || [];
    if (all.length === 0) return undefined;
    const alike = all.filter((hop) => isAlike(hop, row, a.name));
    const isGone = ({ name }: Hop) => this.gone.has(`hop ${name}`);
    const fitting = staying(alike.length > 0 || rowsOfWay > 1 ? alike : all, isGone);
    if (fitting.length === 0) return undefined;
    const free = fitting.filter((hop) => !this.byName.has(keyOf(hop.name)));
    if (fitting.length > 1 || free.length === 0) {
      const names = fitting.map(({ name }) => name).join(" and ");
      this.tell(
        row,
        "row",
        fitting.length > 1 ? `may be ${names}, and says by no name which` : `another row is ${names} already`,
      );
      return "refused";
    }
    if (row.name !== undefined)
      this.tell(row, "remark", `${row.name} is taken for ${free[0]!.name}, which joins the same sites`);
    return this.entered(free[0]!);
  }

  private isClaimed({ facts }: BookedHop): boolean {
    return facts !== EMPTY;
  }

  private tell({ from }: HopRow, what: Told["what"], reason: string): void {
    this.told.push({ from, what, reason });
  }
}

const NO_WORDS: ReadonlySet<string> = new Set();
const EMPTY: HopRow = { from: { sheet: "", line: 0 } };

function wayOf(a: string, b: string): string {
  return a < b ? `${a} ${b}` : `${b} ${a}`;
}

function keyOf(name: string): string {
  return name.toLowerCase();
}

function factsOf({ site: _, ...facts }: EndRow): Omit<EndRow, "site"> {
  return facts;
}

/** The first that says something counts. */
export function filled<T extends object>(first: T, then: T): T {
  const stated = Object.entries(then).filter(
    ([key, value]) => value !== undefined && first[key as keyof T] === undefined,
  );
  return stated.length === 0
    ? first
    : {
        ...first,
        ...Object.fromEntries(stated),
        ...(first === (EMPTY as object) && "from" in then ? { from: then.from } : {}),
      };
}

/** Both directions as one: what a receiver is told to have belongs to the end that transmits back. */
function merged(go: Placed, back: Placed, crossed?: true): HopRow {
  const [a, b] = go.row.ends!;
  const [backB, backA] = back.row.ends!;
  const whole = filled(go.row, back.row);
  return {
    ...whole,
    polarization: crossed ? undefined : whole.polarization,
    ends: [filled(a, backA), filled(b, backB)],
  };
}

function contradict(one: HopRow, other: HopRow): boolean {
  const differ = <T>(a: T | undefined, b: T | undefined) => a !== undefined && b !== undefined && a !== b;
  return (
    differ(one.polarization, other.polarization) ||
    differ(one.channel?.number, other.channel?.number) ||
    differ(one.radio, other.radio) ||
    differ(one.arrangement, other.arrangement)
  );
}

/** Says of what is on the air the same as the hop, as far as both say it. */
function isAlike(hop: Hop, { polarization, channel, ends }: HopRow, firstSite: string): boolean {
  if (polarization !== undefined && hop.polarization !== undefined && polarization !== hop.polarization)
    return false;
  if (channel && hop.channel && (channel.plan !== hop.channel.plan || channel.number !== hop.channel.number))
    return false;
  return hop.ends.every(({ site, transmitFrequencyHz: hz }) => {
    const stated = ends![site.name === firstSite ? 0 : 1].frequency?.value;
    return hz === undefined || stated === undefined || Math.abs(hz - stated) < 1;
  });
}
