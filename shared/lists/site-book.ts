/** The sites that rows speak of: those of the design, matched by name, else by place, and those that are new. */
import type { Site } from "../design/design.js";
import { inverse } from "../geodesy/geodesic.js";
import type { SiteRow, Told } from "./facts.js";
import type { Known } from "./known.js";
import { asName, freeName } from "./names.js";
import { Places } from "./near.js";

export interface BookedSite {
  readonly name: string;
  /** As the design has it; undefined: it is new. */
  readonly known?: Site;
  /** It is taken down before all that is planned stands. */
  readonly gone?: boolean;
  /** What the rows say of it, in their order. */
  readonly rows: SiteRow[];
}

/** Rows of one site that put it further apart than this disagree. */
const DISAGREE_M = 100;

export class SiteBook {
  readonly sites: BookedSite[] = [];
  private readonly byName = new Map<string, BookedSite>();
  /** Titles that one site alone has. */
  private readonly byTitle = new Map<string, BookedSite | null>();
  private readonly places = new Places<BookedSite>();
  private numbered = 0;

  private readonly taken: ReadonlySet<string>;

  constructor(
    { design: { sites }, gone, taken }: Pick<Known, "design" | "gone" | "taken">,
    private readonly told: Told[],
  ) {
    this.taken = taken;
    const isGone = ({ name }: Site) => gone.has(`site ${name}`);
    const all = [...sites.values()];
    // What a title or a place says of two is said of the one that stays.
    for (const known of [...all.filter((one) => !isGone(one)), ...all.filter(isGone)]) {
      const site: BookedSite = { name: known.name, known, gone: isGone(known), rows: [] };
      this.enter(site, [known.name], known.title);
      if (known.position) this.places.add(known.position, site);
    }
  }

  /** The site of a row, made where there is none; undefined: the row says too little or too much, and is told. */
  siteOf(row: SiteRow): BookedSite | undefined {
    const named = row.name === undefined ? undefined : this.named(row.name);
    if (named) return this.claimed(named, row);
    const near = row.position ? this.places.near(row.position) : [];
    // Whoever gives two sites of one place names of their own means two.
    const free =
      row.name === undefined ? near : near.filter(({ what }) => what.known && !isNamedByRows(what));
    const fitting = staying(free, ({ what }) => what.gone);
    if (fitting.length > 1) {
      const names = fitting.map(({ what }) => what.name).join(" and ");
      return this.refuse(row, `lies within 5 m of ${names}, and says by no name which it is`);
    }
    const [one] = fitting;
    if (one) {
      if (row.name !== undefined) {
        this.byName.set(keyOf(row.name), one.what);
        const where = one.distanceM < 0.5 ? "at its place" : `${one.distanceM.toFixed(1)} m from it`;
        this.tell(row, "remark", `${row.name} is taken for ${one.what.name}, ${where}`);
      }
      return this.claimed(one.what, row);
    }
    return this.made(row);
  }

  /** Of a row that names a site and no place: undefined where nothing is known of it. */
  named(name: string): BookedSite | undefined {
    const key = keyOf(name);
    return this.byName.get(key) ?? this.byTitle.get(key) ?? undefined;
  }

  private made(row: SiteRow): BookedSite | undefined {
    if (row.position === undefined && row.name !== undefined && row.ground === undefined)
      return this.refuse(
        row,
        `the site ${row.name} is in no list and not in the design, and the row does not say where it is`,
      );
    const wanted = row.name === undefined ? this.number() : asName(row.name, this.taken);
    if (wanted === undefined)
      return this.refuse(row, `"${row.name}" holds no letter that a name could be made of`);
    const name = freeName(wanted, (one) => this.byName.has(keyOf(one)));
    const site: BookedSite = { name, rows: [] };
    const title = row.title ?? (row.name !== undefined && row.name !== name ? row.name : undefined);
    this.enter(site, row.name === undefined ? [name] : [name, row.name], title);
    return this.claimed(site, row);
  }

  private number(): string {
    do this.numbered++;
    while (this.byName.has(`s${String(this.numbered).padStart(4, "0")}`));
    return `S${String(this.numbered).padStart(4, "0")}`;
  }

  private claimed(site: BookedSite, row: SiteRow): BookedSite {
    const stated = site.rows.find(({ position }) => position)?.position;
    if (stated && row.position) {
      const { distanceM } = inverse({ from: stated, to: row.position });
      if (distanceM > DISAGREE_M)
        this.tell(
          row,
          "remark",
          `puts ${site.name} ${Math.round(distanceM)} m from where line ${site.rows[0]!.from.line} has it; the first counts`,
        );
    } else if (row.position && !site.known?.position) this.places.add(row.position, site);
    site.rows.push(row);
    return site;
  }

  private enter(site: BookedSite, names: readonly string[], title: string | undefined): void {
    this.sites.push(site);
    for (const name of names) this.byName.set(keyOf(name), site);
    if (title === undefined) return;
    const key = keyOf(title);
    const other = this.byTitle.get(key);
    if (!site.gone || other === undefined) this.byTitle.set(key, other === undefined ? site : null);
    else if (other?.gone) this.byTitle.set(key, null);
  }

  private refuse(row: SiteRow, reason: string): undefined {
    this.tell(row, "row", reason);
    return undefined;
  }

  private tell({ from }: SiteRow, what: Told["what"], reason: string): void {
    this.told.push({ from, what, reason });
  }
}

/** Of several that may be meant, those that stay; all of them where none does. */
export function staying<T>(all: readonly T[], isGone: (one: T) => boolean | undefined): readonly T[] {
  const left = all.filter((one) => !isGone(one));
  return left.length > 0 ? left : all;
}

function isNamedByRows({ rows }: BookedSite): boolean {
  return rows.some(({ name }) => name !== undefined);
}

function keyOf(name: string): string {
  return name.toLowerCase();
}
