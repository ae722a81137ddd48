/**
 * Results of hops from earlier runs, by the content of everything that they rest on: the program, the hop as it is
 * resolved, the files of terrain, the day and what others' transmissions cost. What is not found is computed.
 *
 * Many results share a file, so that a design is a few dozen of them; one changed hop writes one anew. A file is written
 * whole or not at all, and the last of two processes wins: what the other one had is computed again.
 */
import { readdirSync, readFileSync, rmSync, statSync, utimesSync } from "node:fs";
import { join } from "node:path";
import type { Finding } from "../../shared/design/finding.js";
import type { HopResult } from "../../shared/evaluate/account/result.js";
import { writeBytes } from "../files/write-whole.js";
import { bytesOf, digestOf, sealed, unsealed, valueIn } from "./pack.js";

interface KeptResult {
  readonly result: HopResult;
  readonly findings: readonly Finding[];
}

/** Of hops, by the digests of their names. */
const PACKS = 64;
/** In the whole folder, of all designs and versions. Some 15 kB a hop. */
const MOST_BYTES = 2 ** 30;

type Entries = ReadonlyMap<string, Uint8Array>;

export class KeptResults {
  private readonly read = new Map<number, Entries>();
  /** What this run took or made; the rest goes. */
  private readonly used = new Map<number, Map<string, Uint8Array>>();
  private readonly keys = new WeakMap<object, Buffer>();

  /**
   * @param folder of all designs
   * @param design names the design in it
   * @param basis everything that all results rest on beside their own key
   */
  constructor(
    private readonly folder: string,
    private readonly design: string,
    private readonly basis: string,
    private readonly mostBytes = MOST_BYTES,
  ) {}

  /** @param hop resolved; the same object is digested once */
  keyOf(hop: object, ...others: readonly unknown[]): string {
    let key = this.keys.get(hop);
    if (key === undefined) this.keys.set(hop, (key = digestOf(bytesOf(hop))));
    return digestOf(this.basis, key, bytesOf(others)).toString("base64");
  }

  has(name: string, key: string): boolean {
    return this.entries(packOf(name)).has(key);
  }

  take(name: string, key: string): KeptResult | undefined {
    const pack = packOf(name);
    const bytes = this.entries(pack).get(key);
    if (bytes === undefined) return undefined;
    try {
      const kept = valueIn(bytes) as KeptResult;
      this.use(pack, key, bytes);
      return kept;
    } catch {
      return undefined;
    }
  }

  keep(name: string, key: string, kept: KeptResult): void {
    this.use(packOf(name), key, bytesOf(kept));
  }

  /** Writes what is new, and lets go of what has not been used for longest. Where that cannot be written, nothing is lost. */
  end(): void {
    try {
      for (const [pack, entries] of this.used) {
        if (isSame(entries, this.entries(pack))) utimesSync(this.pathOf(pack), new Date(), new Date());
        else writeBytes(this.pathOf(pack), sealed(bytesOf(entries)));
      }
      letGo(this.folder, this.mostBytes);
    } catch {
      // Another process may have emptied the folder, the disk may be full, the user may not write there.
    }
  }

  private use(pack: number, key: string, bytes: Uint8Array): void {
    const entries = this.used.get(pack);
    if (entries) entries.set(key, bytes);
    else this.used.set(pack, new Map([[key, bytes]]));
  }

  private entries(pack: number): Entries {
    let entries = this.read.get(pack);
    if (entries === undefined) this.read.set(pack, (entries = readPack(this.pathOf(pack))));
    return entries;
  }

  private pathOf(pack: number): string {
    return join(this.folder, digestOf(this.design).toString("hex").slice(0, 32), `${pack}.kept`);
  }
}

function packOf(name: string): number {
  return digestOf(name)[0]! % PACKS;
}

const NONE: Entries = new Map();

function readPack(path: string): Entries {
  try {
    const content = unsealed(readFileSync(path));
    const entries = content && valueIn(content);
    const isWhole =
      entries instanceof Map &&
      [...entries].every(([key, bytes]) => typeof key === "string" && bytes instanceof Uint8Array);
    return isWhole ? (entries as Entries) : NONE;
  } catch {
    return NONE;
  }
}

function isSame(a: Entries, b: Entries): boolean {
  return a.size === b.size && [...a.keys()].every((key) => b.has(key));
}

/** Removes the files that were not used for longest until the rest is small enough. */
function letGo(folder: string, mostBytes: number): void {
  const files = readdirSync(folder, { withFileTypes: true })
    .filter((entry) => entry.isDirectory())
    .flatMap(({ name }) => readdirSync(join(folder, name)).map((file) => join(folder, name, file)))
    .filter((path) => path.endsWith(".kept"))
    .flatMap((path) => {
      const info = statSync(path, { throwIfNoEntry: false });
      return info?.isFile() ? [{ path, size: info.size, usedMs: info.mtimeMs }] : [];
    })
    .sort((a, b) => b.usedMs - a.usedMs);
  let sum = 0;
  for (const { path, size } of files) {
    sum += size;
    if (sum > mostBytes) rmSync(path, { force: true });
  }
}
