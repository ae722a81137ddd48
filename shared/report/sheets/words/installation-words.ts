/** Words of the sheet that a site is built by. */
import type { EarthPoint } from "../../../equipment/wiring/earth.js";
import type { LooseEnd, PartKind } from "../../../equipment/wiring/wiring.js";
import type { MastWords } from "../../draw/system/site/mast-words.js";
import type { ExamplePort } from "../example-port.js";

export interface InstallationWords {
  readonly title: string;
  readonly place: {
    readonly title: string;
    readonly position: string;
    readonly ground: string;
    readonly structure: string;
    readonly address: string;
    readonly access: string;
    readonly contact: string;
    readonly plant: string;
    readonly battery: string;
    /** Poles and other steel that the design adds to the structure. */
    readonly steel: string;
    readonly fromTerrain: string;
    readonly declination: string;
    convergence(grid: string): string;
    readonly noGrid: string;
    readonly toldNorths: string;
  };
  /** `UTM 32 north, EPSG:32632` in the language. */
  gridName(grid: string): string;
  readonly mast: MastWords;
  readonly drawing: string;
  readonly drawingTold: string;
  notDrawn(count: number, most: number): string;
  readonly antennas: {
    readonly title: string;
    readonly none: string;
    /** A table an antenna. */
    caption(number: number, antenna: string, hop: string, far: string): string;
    readonly antenna: string;
    readonly height: string;
    readonly side: string;
    /** Eight, from north clockwise. */
    readonly sides: readonly string[];
    readonly azimuthTrue: string;
    azimuthCompass(day: string): string;
    azimuthGrid(grid: string): string;
    readonly elevation: string;
    readonly length: string;
    readonly polarization: string;
    readonly turned: Readonly<Record<"unit" | "coupler" | "feed", string>>;
    readonly mounting: string;
    readonly mountings: Readonly<Record<"direct" | "separate", string>>;
    readonly unit: string;
    onPort(port: string): string;
    readonly coupler: string;
    readonly guide: string;
    readonly toChoose: string;
    readonly brackets: string;
    readonly weight: string;
    readonly down: string;
    readonly built: string;
    sharedWith(hop: string): string;
    /** What the boxes are for. */
    readonly boxesTold: string;
  };
  readonly cables: {
    readonly title: string;
    readonly outdoors: string;
    readonly indoors: string;
    readonly number: string;
    readonly what: string;
    readonly from: string;
    readonly labelThere: string;
    readonly to: string;
    readonly done: string;
    readonly kinds: Readonly<Record<"coaxial" | "ethernet" | "fibre", string>>;
    readonly patch: string;
    readonly wire: string;
    readonly guide: string;
    fuse(feed: string, fuse: number, rating: string | undefined): string;
    /** A pair for direct current that goes up to a unit. */
    readonly supply: string;
    readonly proposed: string;
    readonly proposedTold: string;
    /** @param example of a port on the sheet, where there is one of a card */
    labelsTold(example: ExamplePort | undefined): string;
    /** @param run between structure and rack, as stated; undefined: the usual one is taken */
    estimateTold(run: string | undefined): string;
    readonly lengthBuilt: string;
    /** Of a cable that finds no port indoors. */
    readonly upper: string;
    readonly indoorPort: string;
    readonly noPlant: string;
    readonly unjoined: string;
    readonly open: string;
    readonly lacks: Readonly<Record<LooseEnd["lacks"], string>>;
  };
  readonly rack: {
    readonly title: string;
    readonly chassis: string;
    readonly slot: string;
    readonly what: string;
    readonly serves: string;
    /** Where the chassis is screwed in: written by hand. */
    readonly unit: string;
    row(name: string): string;
    free(height: string): string;
    readonly noFree: string;
    readonly unitTold: string;
    readonly proposedTold: string;
  };
  readonly load: {
    readonly title: string;
    readonly weight: string;
    readonly weightLimit: string;
    readonly area: string;
    readonly basicWind: string;
    readonly wind: string;
    readonly windLimit: string;
    readonly told: string;
    without(parts: string): string;
    leftOut(mounts: boolean): string;
  };
  readonly parts: Readonly<Record<PartKind, string>>;
  /** What the design's own words for branches, arms and ports are in the language; others stay as they are. */
  readonly pieces: Readonly<Record<string, string>>;
  readonly earth: {
    readonly title: string;
    readonly part: string;
    readonly at: string;
    readonly points: string;
    readonly where: Readonly<Record<EarthPoint["what"], string>>;
    /** Where kits along a cable go; common practice. */
    kitsTold(every: string): string;
    readonly told: string;
  };
  readonly order: {
    readonly title: string;
    readonly steps: readonly string[];
  };
  readonly fields: {
    readonly title: string;
    readonly builtOn: string;
    readonly builtBy: string;
    readonly weather: string;
    readonly instrument: string;
    readonly north: string;
    readonly earthResistance: string;
    readonly remarks: string;
    readonly back: string;
  };
}
