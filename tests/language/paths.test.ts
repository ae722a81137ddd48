/** Where the names of a design lead: relative to the file that names them, and to no machine but those it lies on. */
import fc from "fast-check";
import { describe, expect, it, test } from "vitest";
import { resolvePath } from "../../language/model/path.js";
import { readSource } from "../../language/model/source-file.js";
import { fixture } from "../support/fixture.js";

const HERE = "/designs/north/network.hop";
const DRIVE = "C:/designs/north/network.hop";
const SHARE = "//Plans/radio/north/network.hop";

const CASES: readonly (readonly [from: string, named: string, at: string | undefined])[] = [
  [HERE, "terrain", "/designs/north/terrain"],
  [HERE, "../catalogue/", "/designs/catalogue"],
  [HERE, "./a//b/./c", "/designs/north/a/b/c"],
  [HERE, "..\\catalogue", "/designs/catalogue"],
  [HERE, "../../../../etc", "/etc"],
  [HERE, "/srv/ground", "/srv/ground"],
  [HERE, "/", "/"],
  [HERE, "D:\\ground", "D:/ground"],
  ["/network.hop", "terrain", "/terrain"],
  [DRIVE, "../../../../ground", "C:/ground"],
  [DRIVE, "D:/ground/../x", "D:/x"],
  // A share of the network is read by a design that lies on it, and by no other.
  [SHARE, "../ground", "//Plans/radio/ground"],
  [SHARE, "../../../../other/share/ground", "//Plans/radio/other/share/ground"],
  [SHARE, "//plans/Radio/ground", "//plans/Radio/ground"],
  [SHARE, "\\\\plans\\radio\\..\\..\\x\\y", "//plans/radio/x/y"],
  [SHARE, "C:/ground", "C:/ground"],
  [SHARE, "//plans/other/ground", undefined],
  [SHARE, "//other/radio/ground", undefined],
  [HERE, "//host/share/ground", undefined],
  [HERE, "\\\\host\\share\\ground", undefined],
  [HERE, "/\\host/share", undefined],
  [DRIVE, "//host", undefined],
  [DRIVE, "\\\\?\\UNC\\host\\share", undefined],
  [DRIVE, "\\\\.\\pipe\\x", undefined],
];

describe("a name leads", () => {
  for (const [from, named, at] of CASES)
    it(`from ${from} by ${named} to ${at ?? "nowhere"}`, () => expect(resolvePath(from, named)).toBe(at));
});

test("no name leads from this machine to another, whatever it is made of", () => {
  const piece = fc.constantFrom("/", "\\", "..", ".", "host", "share", "C:", "?", " ", "a");
  fc.assert(
    fc.property(
      fc.constantFrom(HERE, DRIVE, "network.hop"),
      fc.array(piece, { maxLength: 12 }),
      (from, pieces) => {
        expect(resolvePath(from, pieces.join(""))?.startsWith("//")).not.toBe(true);
      },
    ),
  );
  fc.assert(
    fc.property(fc.array(piece, { maxLength: 12 }), (pieces) => {
      const at = resolvePath(SHARE, pieces.join("")) ?? "";
      if (at.startsWith("//")) expect(at.toLowerCase()).toMatch(/^\/\/plans\/radio(\/|$)/);
    }),
  );
});

describe("a share that a design names", () => {
  const network = 'network "N" {\n  terrain "//host/a/t"\n  maps "//host/a/m"\n  catalogue "//host/a/c"\n}\n';
  const hop = 'site K {}\nsite L {}\nhop K-L {\n  survey "//host/a/s.csv" from K\n  K {}\n  L {}\n}\n';

  it("is told at its place, and nothing is asked to read there", () => {
    const { model, file } = fixture(network + hop);
    const told = model.problemsOf(file).filter(({ rule }) => rule === "network-share");
    const text = network + hop;
    expect(
      told.map(({ severity, start, end, message }) => [severity, text.slice(start, end), message]),
    ).toEqual(
      ["t", "m", "c", "s.csv"].map((name) => [
        "error",
        `"//host/a/${name}"`,
        `//host/a/${name} lies on another machine of the network; nothing is read there`,
      ]),
    );
    expect([...model.terrain(), ...model.maps(), ...model.catalogues()]).toEqual([]);
    expect(model.hop("K-L")!.hop!.surveyFile).toBeUndefined();
  });

  it("is read by a design that lies on it", () => {
    const { problems } = readSource("//host/a/net/network.hop", network + hop);
    expect(problems.filter(({ rule }) => rule === "network-share")).toEqual([]);
  });
});
