/** In place of a package that has no use outside of a browser. */
export default class NoWorker {
  constructor() {
    throw new Error("there is no browser here");
  }
}
