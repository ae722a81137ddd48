import { describe, expect, test } from "vitest";
import { formatText } from "../../language/format/format.js";
import { DesignModel } from "../../language/model/design-model.js";
import { readSource } from "../../language/model/source-file.js";
import { hopsAlone, inOneFile, networkText, withUnknownNames } from "./network/network.js";

/** What the bench measures must be text that a careful author would have: else its figures say nothing. */
describe("the generated network", () => {
  const files = networkText(100, "../terrain");

  test("is laid out as the formatter lays it out", () => {
    for (const [path, text] of files) expect(formatText(text), path).toEqual({ ok: true, text });
  });

  test("has no problem of text and as many hops and sites as asked for", () => {
    const model = modelOf(files);
    expect(problems(model, files)).toEqual([]);
    expect(model.design().hops.size).toBe(100);
    expect(model.design().sites.size).toBe(90);
  });

  test("is the same design in one file", () => {
    expect(modelOf(inOneFile(files)).design().hops).toEqual(modelOf(files).design().hops);
  });

  test("has one unknown name in each file of hops when asked for", () => {
    const spoilt = withUnknownNames(files);
    expect(problems(modelOf(spoilt), spoilt)).toEqual([
      "hops/area-001.hop unknown-name",
      "hops/area-002.hop unknown-name",
    ]);
  });

  test("has hops by themselves when asked for: the same ones, in the same layout", () => {
    const alone = hopsAlone(files);
    expect(formatText(alone.get("network.hop")!)).toEqual({ ok: true, text: alone.get("network.hop") });
    const [{ hops, interference }, whole] = [modelOf(alone).design(), modelOf(files).design()];
    expect([hops, interference]).toEqual([whole.hops, { searchDistanceM: 1000 }]);
  });

  test("is the same every time", () => {
    expect(networkText(100, "../terrain")).toEqual(files);
  });
});

function modelOf(files: ReadonlyMap<string, string>): DesignModel {
  const model = new DesignModel("");
  for (const [path, text] of files) model.setFile(readSource(path, text));
  return model;
}

function problems(model: DesignModel, files: ReadonlyMap<string, string>): string[] {
  return [...files.keys()].flatMap((path) => model.problemsOf(path).map(({ rule }) => `${path} ${rule}`));
}
