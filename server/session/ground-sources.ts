/** Where a session's design has its ground and its climate from: terrain, maps and surveys, opened as the text names them. */
import type { DesignModel } from "../../language/model/design-model.js";
import type { Hop } from "../../shared/design/design.js";
import type { GroundInput } from "../../shared/evaluate/path/ground.js";
import type { LatLon } from "../../shared/geodesy/coordinates.js";
import { shownFrom } from "../findings/paths.js";
import { climateReadings, openFacts } from "../maps/climate-readings.js";
import { type MapStore, openMaps } from "../maps/store.js";
import { type AheadSource, type Channel, readAhead } from "../terrain/ahead.js";
import { openTerrain, type TerrainStore } from "../terrain/store.js";
import { askingAhead } from "./asking-ahead.js";
import { ground, groundNow } from "./ground.js";

export interface GroundOptions {
  readonly terrainCacheBytes?: number;
  /** Where the ground is read, for a state of the design that is not the one on disk. */
  readonly openTerrain?: typeof openTerrain;
  /** Starts a second thread that reads terrain, worth its while from some hundred hops on. */
  readonly startThread?: (source: AheadSource) => Channel | undefined;
  /** The file to read in place of one that the design names. */
  readonly fileFor?: (path: string) => string;
}

export class GroundSources {
  terrain: TerrainStore | undefined;
  maps: MapStore | undefined;
  private terrainRoots = "";
  private mapFolders = "";

  constructor(
    private readonly model: DesignModel,
    private readonly options: GroundOptions,
  ) {}

  /** @returns whether the design names others than before */
  async open(): Promise<boolean> {
    const terrain = await this.openTerrain();
    return (await this.openMaps()) || terrain;
  }

  /** Looks at the folders again. @returns whether a file of terrain or maps came, went or changed */
  async refresh(): Promise<boolean> {
    const terrain = (await this.terrain?.refresh()) ?? false;
    const maps = (await this.maps?.refresh()) ?? false;
    return terrain || maps;
  }

  /** The ground of a hop, with what maps and terrain say of its climate. */
  async of(hop: Hop): Promise<GroundInput> {
    const read = this.read(hop);
    const base = groundNow(read, this.terrain) ?? (await ground(read, this.terrain, this.shownSurvey(hop)));
    // Most designs state all of it: nothing is waited for then.
    if (!this.maps && hop.climate.multipathMethod !== "preceding") return base;
    if (openFacts(hop).length === 0) return base;
    const climate = await climateReadings(hop, this.maps, this.terrain);
    return climate.length === 0 ? base : { ...base, climate };
  }

  /**
   * The ground at the ends of a hop alone, where nothing else is read for it.
   * @returns undefined where the whole path is
   */
  async atEnds(hop: Hop): Promise<GroundInput | undefined> {
    const isPlain = hop.surveyFile === undefined && !this.maps && hop.climate.multipathMethod !== "preceding";
    const [from, to] = hop.ends.map(({ site }) => site.position);
    if (!isPlain || !this.terrain || !from || !to) return undefined;
    const groundM = [await this.heightAt(from), await this.heightAt(to)] as const;
    return { groundM, profileKind: "terrain" };
  }

  private async heightAt(at: LatLon): Promise<number | undefined> {
    const now = this.terrain!.heightAtSync(at);
    return now === "loading" ? this.terrain!.heightAt(at) : now;
  }

  /** The hop with the files that its ground is read from. */
  read(hop: Hop): Hop {
    const { fileFor } = this.options;
    return fileFor && hop.surveyFile !== undefined ? { ...hop, surveyFile: fileFor(hop.surveyFile) } : hop;
  }

  /** From here on the terrain hands out what a second thread reads for these hops. */
  ahead(names: readonly string[]): { ask(index: number): void; end(): void } | undefined {
    const channel = this.terrain && this.options.startThread?.(this.terrainSource());
    if (!this.terrain || !channel) return undefined;
    const store = readAhead(this.terrain, channel);
    this.terrain = store;
    return { ask: askingAhead(store, names, (name) => this.model.hop(name)?.hop), end: store.end };
  }

  private async openTerrain(): Promise<boolean> {
    const { roots, ...options } = this.terrainSource();
    const key = roots.join("\n");
    if (key === this.terrainRoots) return false;
    this.terrainRoots = key;
    this.terrain =
      roots.length === 0 ? undefined : await (this.options.openTerrain ?? openTerrain)(roots, options);
    return true;
  }

  private terrainSource(): AheadSource {
    return {
      roots: this.model.terrain(),
      baseDir: this.model.root,
      cacheBytes: this.options.terrainCacheBytes,
    };
  }

  private async openMaps(): Promise<boolean> {
    const folders = this.model.maps();
    const key = folders.join("\n");
    if (key === this.mapFolders) return false;
    this.mapFolders = key;
    this.maps = folders.length === 0 ? undefined : await openMaps(folders, this.model.root);
    return true;
  }

  /** As results name it: from the folder of the design, on whatever machine. */
  private shownSurvey({ surveyFile }: Hop): string | undefined {
    return surveyFile === undefined ? undefined : shownFrom(this.model.root, surveyFile);
  }
}
