/**
 * What a network rests on beside its hops: terrain where slips in positions would be told by it, the lists and patterns
 * that it names, and interference. Each waits to be read again when anything that it rests on may have changed.
 */
import type { DesignModel } from "../../language/model/design-model.js";
import type { Design } from "../../shared/design/design.js";
import type { Memory } from "../../shared/network/memory.js";
import { type ListedFiles, NO_FILES } from "../../shared/others/listed.js";
import type { SpotHeights } from "../../shared/rules/position-slips.js";
import type { GroundSources } from "./ground-sources.js";
import { type Felt, type InterferenceInputs, type Pausing, SessionInterference } from "./interference.js";
import { listedFiles } from "./listed-files.js";
import { spotHeights } from "./spots.js";

export class Surroundings {
  readonly interference = new SessionInterference();
  private spots: SpotHeights = new Map();
  private listed: ListedFiles = NO_FILES;
  private spotsWait = true;
  private listedWait = true;
  private interferenceWaits = true;

  /** @param fileFor the file to read in place of one that the design names */
  constructor(
    private readonly model: DesignModel,
    private readonly ground: GroundSources,
    private readonly memory: Memory,
    private readonly fileFor: ((path: string) => string) | undefined,
  ) {}

  /** As last read. */
  get heights(): SpotHeights {
    return this.spots;
  }

  /** As last read. */
  get files(): ListedFiles {
    return this.listed;
  }

  /** The design or its results are others: other places, other files, other transmissions may count. */
  waitForAll(): void {
    this.spotsWait = true;
    this.listedWait = true;
    this.interferenceWaits = true;
  }

  /** Files that the design names have changed. */
  waitForFiles(): void {
    this.listedWait = true;
  }

  /** The terrain has changed below all of it. */
  forgetGround(): void {
    this.interference.forget();
    this.spots = new Map();
    this.spotsWait = true;
  }

  /** @returns whether anything is other than before */
  async readSpots(): Promise<boolean> {
    if (!this.spotsWait) return false;
    this.spotsWait = false;
    const known = this.spots;
    const read = await this.spotsOf(this.model.design());
    // Meanwhile the ground below them may have changed: they are read again then.
    if (this.spotsWait) return false;
    this.spots = read;
    return read !== known;
  }

  /** Terrain at the places that a state of the design asks for. */
  spotsOf(design: Design): Promise<SpotHeights> {
    return spotHeights(design, this.ground.terrain, this.spots, this.memory);
  }

  /** A run that is stale waits for none of them. @returns whether anything is other than before */
  async readFiles(pace: Pausing): Promise<boolean> {
    if (!this.listedWait) return false;
    this.listedWait = false;
    const read = await listedFiles(this.model, this.listed, { ...pace, fileFor: this.fileFor });
    if (read === undefined) {
      this.listedWait = true;
      return false;
    }
    const isOther = read !== this.listed;
    if (isOther) this.interferenceWaits = true;
    this.listed = read;
    return isOther;
  }

  /** @returns undefined where nothing has to be computed, or the run has become pointless */
  async feel(inputs: () => Promise<InterferenceInputs>, pace: Pausing): Promise<Felt | undefined> {
    if (!this.interferenceWaits || pace.isStale?.()) return undefined;
    this.interferenceWaits = false;
    const felt = await this.interference.update(await inputs(), pace);
    if (felt === undefined) this.interferenceWaits = true;
    return felt;
  }
}
