/** Words of the drawings of a network: its map and its diagram. */
import { type State, stateWords } from "../../design/state.js";

export interface NetworkWords {
  /** Figures with the decimal mark of the language. @param text with a point */
  figure(text: string): string;
  state(state: State): string;
  /** @param name `18 GHz`, `lower 6 GHz` */
  band(name: string): string;
  readonly bandOpen: string;
  /** @param name as the language writes it: `1+1 hot-standby` */
  arrangement(name: string): string;
  /** Of an end that is built otherwise than the other. */
  at(arrangement: string, site: string): string;
}

export const ENGLISH_NETWORK: NetworkWords = {
  figure: (text) => text,
  state: stateWords,
  band: (name) => name,
  bandOpen: "band open",
  arrangement: (name) => name,
  at: (arrangement, site) => `${arrangement} at ${site}`,
};
