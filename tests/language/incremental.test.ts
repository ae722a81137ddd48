/** After any sequence of edits the model knows the same as one that reads the files afresh. */
import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { DesignModel } from "../../language/model/design-model.js";
import { Project } from "../../language/model/project.js";
import { readSource } from "../../language/model/source-file.js";

const PIECES = [
  "site A { at 47 -30 }",
  "site A { at 47 -30.05 }",
  "site B { at 47 -30.1 }",
  "site C { at 47.1 -30.1 }",
  "antenna X { gain 30 dBi }",
  "antenna X { gain 33 dBi }",
  "template radio BASE { mode 28 MHz QPSK rate 40 Mbit/s }",
  "radio R like BASE { overload -20 dBm }",
  "radio R { mode 28 MHz 16QAM rate 80 Mbit/s }",
  "radio R like S { overload -20 dBm }",
  "radio S like R {}",
  "radio A { overload -30 dBm }",
  "defaults end { antenna X at 20 m }",
  "defaults hop { radio R }",
  'network "N" { climate { rain 30 mm/h }; objective o { availability 99.9 % } }',
  "objective o { availability 99 % }",
  "hop H { radio R; A { antenna X at 10 m }; B {} }",
  "hop H { radio R; mode 28 MHz QPSK; A {}; C {} }",
  "hop I { objective o; channel P / 28 MHz / 1; B { transmits low }; C { transmits high } }",
  "plan P { centre 7 GHz; row 28 MHz go -100 MHz return 54 MHz channels 1 to 4 }",
  "site {",
];

const fileText = fc
  .uniqueArray(fc.constantFrom(...PIECES), { maxLength: 6 })
  .map((pieces) => pieces.join("\n"));
const edit = fc.record({
  file: fc.constantFrom("/d/a.hop", "/d/b.hop", "/d/c.hop"),
  text: fc.option(fileText, { nil: undefined }),
});

function state(model: DesignModel, paths: Iterable<string>): unknown {
  const names = model.names("hop");
  return {
    hops: names.map((name) => [name, model.hop(name)?.hop]),
    sites: model.names("site").map((name) => model.lookup.site(name)),
    design: Object.entries(model.design()).map(([what, value]) => [
      what,
      value instanceof Map ? [...value] : value,
    ]),
    problems: [...paths]
      .sort()
      .map((path) => model.problemsOf(path).map(({ rule, start, message }) => [rule, start, message])),
  };
}

describe("edits", () => {
  it("leave the model as reading everything afresh would", () => {
    fc.assert(
      fc.property(fc.array(edit, { minLength: 1, maxLength: 12 }), (edits) => {
        const model = new DesignModel("/d");
        const texts = new Map<string, string>();
        for (const { file, text } of edits) {
          if (text === undefined) {
            model.removeFile(file);
            texts.delete(file);
          } else {
            model.setFile(readSource(file, text));
            texts.set(file, text);
          }
          // Ask in between, so that there is something remembered to be forgotten.
          state(model, texts.keys());
        }
        const fresh = new DesignModel("/d");
        for (const [file, text] of [...texts].sort()) fresh.setFile(readSource(file, text));
        expect(state(model, texts.keys())).toEqual(state(fresh, texts.keys()));
      }),
      { numRuns: 400 },
    );
  });

  it("name every hop whose resolved form changed, and no hop that depends on nothing edited", () => {
    const model = new DesignModel("/d");
    model.setFile(
      readSource("/d/sites.hop", "site A { at 47 -30 }\nsite B { at 47 -30.1 }\nsite C { at 47 -30.2 }"),
    );
    model.setFile(readSource("/d/hops.hop", "hop AB { A {}; B {} }\nhop BC { B {}; C {} }"));
    for (const name of model.names("hop")) model.hop(name);
    model.takeChangedHops();
    model.setFile(
      readSource(
        "/d/sites.hop",
        "// a comment moves all lines\nsite A { at 47 -30.01 }\nsite B { at 47 -30.1 }\nsite C { at 47 -30.2 }",
      ),
    );
    expect([...model.takeChangedHops()]).toEqual(["AB"]);
  });

  it("name the files that mention a vanished name", () => {
    const model = new DesignModel("/d");
    model.setFile(readSource("/d/sites.hop", "site A {}\nsite B {}"));
    model.setFile(readSource("/d/hops.hop", "hop AB { A {}; B {} }"));
    model.setFile(readSource("/d/other.hop", "radio R {}"));
    model.takeChangedFiles();
    model.setFile(readSource("/d/sites.hop", "site A {}"));
    expect([...model.takeChangedFiles()].sort()).toEqual(["/d/hops.hop", "/d/sites.hop"]);
  });
});

const FILES = ["/d/a.hop", "/d/b.hop", "/d/c.hop"] as const;

/** Texts of a folder, by the files that it has. */
const folder = fc
  .array(fc.option(fileText, { nil: undefined }), { minLength: 3, maxLength: 3 })
  .map((texts) => FILES.flatMap((file, i) => (texts[i] === undefined ? [] : [[file, texts[i]] as const])));
type Folder = readonly (readonly [string, string])[];

function modelOf(texts: Folder): DesignModel {
  const model = new DesignModel("/d");
  for (const [file, text] of texts) model.setFile(readSource(file, text));
  return model;
}

const filesOf = (texts: Folder) => new Map(texts.map(([file, text]) => [file, readSource(file, text)]));
const stateOf = (model: DesignModel) => state(model, [...model.files().keys()]);

describe("a model that goes on from another", () => {
  it("knows the same as one that reads its files afresh, whatever the other had resolved, and so does the other", () => {
    fc.assert(
      fc.property(folder, folder, folder, fc.boolean(), (before, beside, after, isAsked) => {
        const model = modelOf(before);
        if (isAsked) stateOf(model);
        const fork = model.fork();
        fork.setFiles(filesOf(beside));
        expect(stateOf(fork)).toEqual(stateOf(modelOf(beside)));
        // Each goes its own way.
        expect(stateOf(model)).toEqual(stateOf(modelOf(before)));
        model.setFiles(filesOf(after));
        expect(stateOf(model)).toEqual(stateOf(modelOf(after)));
        expect(stateOf(fork)).toEqual(stateOf(modelOf(beside)));
      }),
      { numRuns: 200 },
    );
  });

  it("is new to whoever asks what changed", () => {
    fc.assert(
      fc.property(folder, folder, (before, after) => {
        const model = modelOf(before);
        stateOf(model);
        model.takeChangedHops();
        model.takeChangedFiles();
        const fork = model.fork();
        fork.setFiles(filesOf(after));
        const fresh = modelOf(after);
        const hops = fork.takeChangedHops();
        const files = fork.takeChangedFiles();
        for (const name of fresh.names("hop")) expect(hops).toContain(name);
        for (const path of fresh.files().keys()) expect(files).toContain(path);
      }),
    );
  });

  it("keeps what is the same as the same object", () => {
    const [network, sites] = ["radio R {}", "site A { at 47 -30 }\nsite B { at 47 -30.1 }\nsite C {}"];
    const hops = (height: number) => `hop AB { A { height ${height} m }; B {} }\nhop BC { B {}; C {} }`;
    const model = modelOf([
      [FILES[0], network],
      [FILES[1], sites],
      [FILES[2], hops(10)],
    ]);
    const design = model.design();
    const same = model.fork();
    expect(same.design()).toBe(design);
    const fork = model.fork();
    fork.setFile(readSource(FILES[2], hops(20)));
    expect(fork.design().hops.get("AB")).not.toBe(design.hops.get("AB"));
    expect(fork.design().hops.get("BC")).toBe(design.hops.get("BC"));
    expect(fork.design().sites).toBe(design.sites);
  });
});

describe("a project", () => {
  it("that goes on from designs is the one that does not, in the same order", () => {
    const file = fc.tuple(fc.constantFrom("/d", "/d/x", "/d/y", "/d/x/z"), fileText);
    const project = (files: readonly (readonly [string, string])[]) => {
      const made = new Project("/d");
      made.setFiles(files.map(([at, text], i) => readSource(`${at}/${i % 3}.hop`, text)));
      return made;
    };
    const shown = (one: Project) => one.designs().map((model) => [model.root, stateOf(model)]);
    fc.assert(
      fc.property(fc.array(file, { maxLength: 5 }), fc.array(file, { maxLength: 5 }), (before, after) => {
        const old = project(before);
        shown(old);
        const next = project(after);
        next.goOnFrom(old.designs());
        expect(shown(next)).toEqual(shown(project(after)));
        expect(shown(old)).toEqual(shown(project(before)));
      }),
      { numRuns: 200 },
    );
  });

  it("parts folders into designs and shares a catalogue between them", () => {
    const project = new Project("/w");
    project.setFiles([
      readSource("/w/one/net.hop", 'network "One" { catalogue "../cat" }'),
      readSource("/w/one/hops/h.hop", "hop H {}"),
      readSource("/w/two/net.hop", 'network "Two" { catalogue "../cat" }'),
      readSource("/w/cat/x.hop", "antenna X {}"),
      readSource("/w/loose.hop", "site S {}"),
    ]);
    expect(
      project
        .designs()
        .map((model) => model.root)
        .sort(),
    ).toEqual(["/w", "/w/one", "/w/two"]);
    expect(project.designsOf("/w/cat/x.hop").map((model) => model.root)).toEqual(["/w/one", "/w/two"]);
    expect(project.designsOf("/w/one/hops/h.hop").map((model) => model.root)).toEqual(["/w/one"]);
    project.setFile(readSource("/w/two/net.hop", 'network "Two" {}'));
    expect(project.designsOf("/w/cat/x.hop").map((model) => model.root)).toEqual(["/w/one"]);
    project.removeFile("/w/one/net.hop");
    expect(project.designsOf("/w/one/hops/h.hop").map((model) => model.root)).toEqual(["/w"]);
  });
});
