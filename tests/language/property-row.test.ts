/** A property is a row: each surface is asked for one that is invented, and each field that rows fill is held against its type. */
import { expect, test, vi } from "vitest";
import { snippets, textMateGrammar } from "../../language/docs/colouring.js";
import { propertiesPage } from "../../language/docs/properties-page.js";
import { completionAt } from "../../language/editor/completion.js";
import { hoverAt } from "../../language/editor/hover.js";
import { lineSnippet } from "../../language/editor/snippet.js";
import { formatText } from "../../language/format/format.js";
import { alternatives, findProperty, PROPERTIES } from "../../language/schema/index.js";
import { NEEDED } from "../../language/schema/into.js";
import { NAMED_KINDS } from "../../language/schema/kinds.js";
import { one, quantity, ref } from "../../language/schema/table/values.js";
import type { ArgSpec, Property } from "../../language/schema/types.js";
import type { Dimension } from "../../shared/units/units.js";
import { fixture } from "../support/fixture.js";

/** The field is in the invented row alone: the types of the design have none of the name. */
const INVENTED = vi.hoisted(() => ({
  name: "gust-limit",
  in: ["radio"],
  args: [
    {
      name: "speed",
      value: { type: "quantity", dimension: "speed", min: "0 m/s", max: "90 m/s" },
      meaning: "Ten-minute mean.",
      into: "radio.gustLimitMPerS",
    },
    {
      name: "when",
      optional: true,
      value: { type: "word", words: { iced: "with ice on it", bare: "without" } },
      meaning: "In what state.",
      into: "radio.gustWhen",
    },
  ],
  meaning: "Wind that the invented unit bears.",
  source: "nowhere",
  example: "gust-limit 40 m/s iced",
}));

vi.mock("../../language/schema/table/radio.js", async (load) => {
  const { radioRows } = await load<{ radioRows: readonly Property[] }>();
  return { radioRows: [...radioRows, INVENTED] };
});

const TEXT = "radio R18 {\n  tuning 17.7 GHz to 19.7 GHz\n  gust-limit 40 m/s iced\n}\n";

test("read, and held against its limits", () => {
  const { model, file } = fixture(TEXT.replace("40", "400"));
  expect(model.problemsOf(file).map(({ rule }) => rule)).toEqual(["value-range"]);
});

test("resolved into the field that it names, by inheritance too", () => {
  const { model } = fixture(`${TEXT}radio R19 like R18 {\n  tuning 19.7 GHz to 17.7 GHz\n}\n`);
  expect(model.lookup.radio("R18")).toMatchObject({ gustLimitMPerS: 40, gustWhen: "iced" });
  expect(model.lookup.radio("R19")).toMatchObject({
    gustLimitMPerS: 40,
    tuning: { fromHz: 17.7e9, toHz: 19.7e9 },
  });
});

test("completed, and its words behind it", () => {
  const at = (source: string) => {
    const { model, file, offset } = fixture(source);
    return completionAt(model, file, offset).items.map(({ label }) => label);
  };
  expect(at("radio R {\n  gu$0\n}\n")).toContain("gust-limit");
  expect(at("radio R {\n  gust-limit 40 m/s $0\n}\n")).toEqual(expect.arrayContaining(["iced", "bare"]));
  expect(lineSnippet(findProperty("radio", "gust-limit")!, "radio")).toContain("gust-limit");
});

test("told by the hover", () => {
  const { model, file, offset } = fixture(TEXT.replace("gust", "gu$0st"));
  const { markdown } = hoverAt(model, file, offset, () => undefined)!;
  expect(markdown).toContain("Wind that the invented unit bears.");
  expect(markdown).toContain("0 m/s to 90 m/s");
});

test("in the reference, the colours and the order of the layout", () => {
  expect(propertiesPage()).toContain("Wind that the invented unit bears.");
  expect(textMateGrammar()).toContain("gust-limit");
  const laid = formatText("radio R18 {\n  gust-limit 40 m/s\n  tuning 17.7 GHz to 19.7 GHz\n}\n");
  expect(laid).toMatchObject({ text: expect.stringMatching(/tuning.*\n.*gust-limit/) });
});

test("the snippets know no word that the table does not", () => {
  const words = new Set(PROPERTIES.map(({ name }) => name));
  for (const line of Object.values<{ body: string[] }>(JSON.parse(snippets())).flatMap(({ body }) => body)) {
    const word = /^\s*([a-z][a-z-]*)\b/.exec(line)?.[1];
    if (word !== undefined) expect(words).toContain(word);
  }
});

test("a field that is not there, of another type or with other words does not compile", () => {
  const rows: readonly (readonly ArgSpec[])[] = [
    // @ts-expect-error no such field
    one("value", quantity("duration"), "", "radio.nothing"),
    // @ts-expect-error a range
    one("value", quantity("frequency"), "", "radio.tuning"),
    // @ts-expect-error the type knows no third sort
    one("value", { type: "word", words: { hybrid: "", omt: "", third: "" } }, "", "coupler.kind"),
    // @ts-expect-error two sorts are left out
    one("value", { type: "word", words: { hybrid: "", omt: "" } }, "", "coupler.kind"),
    // @ts-expect-error an antenna is no feeder
    one("antenna", ref("antenna"), "", "end.feeder"),
    // @ts-expect-error a word for a figure
    one("value", { type: "free", example: "A" }, "", "radio.mtbfHours"),
  ];
  expect(rows).toHaveLength(6);
});

const PLACED = PROPERTIES.filter((property) => property.name !== INVENTED.name).flatMap((property) =>
  property.args.flatMap((arg) => placesOf(arg).map((place) => ({ property, arg, place }))),
);

function placesOf({ into }: ArgSpec): readonly string[] {
  return into === undefined ? [] : typeof into === "string" ? [into] : into;
}

/** How fields are called whose base unit it is. */
const UNIT_NAMES: Partial<Record<Dimension, RegExp>> = {
  length: /M$/,
  frequency: /Hz$/,
  ratio: /Db$/,
  "power level": /Dbm$/,
  duration: /Hours$/,
  time: /S$/,
  "frame size": /Bytes$/,
  percentage: /Percent$/,
  angle: /Deg$/,
  gain: /Dbi$/,
  "bit rate": /Bps$/,
  consumption: /W$/,
  mass: /Kg$/,
  voltage: /V$/,
  force: /N$/,
  temperature: /K$/,
  pressure: /HPa$/,
  "vapour density": /Gm3$/,
  "rain rate": /MmPerH$/,
  "loss per length": /DbPerM$/,
  "resistance per length": /OhmPerM$/,
  "mass per length": /gPerM$/,
  "rack height": /^rackUnits$/,
  "Fresnel fraction": /^fresnelFraction$/,
  "refractivity increase": /^dN75$/,
  "refractivity gradient": /^dN1$|NPerKm$/,
};

test("a quantity goes into a field that is named after its unit", () => {
  const strange = PLACED.flatMap(({ arg, place }) =>
    alternatives(arg).flatMap((spec) =>
      spec.type === "quantity" && !UNIT_NAMES[spec.dimension]?.test(place.split(".").at(-1)!)
        ? [`${place}: ${spec.dimension}`]
        : [],
    ),
  );
  expect(strange).toEqual([]);
});

test("no field is filled by two rows of one block, but by those that mean entries of their own", () => {
  const seen = new Map<string, string>();
  for (const { property, place } of PLACED) {
    if (Object.hasOwn(NEEDED, place.split(".")[0]!)) continue;
    for (const context of property.in) {
      const key = `${context}: ${place}`;
      expect(seen.get(key) ?? property.name, key).toBe(property.name);
      seen.set(key, property.name);
    }
  }
});

test("what an entry cannot be without is said by each statement that makes one", () => {
  for (const [form, needed] of Object.entries(NEEDED)) {
    const makers = new Set(
      PLACED.filter(({ place }) => place.startsWith(`${form}.`)).map((one) => one.property),
    );
    expect(makers.size, form).toBeGreaterThan(0);
    for (const property of makers) {
      const said = property.args.filter(({ optional }) => !optional).flatMap(placesOf);
      expect(said, `${form} by ${property.name}`).toEqual(
        expect.arrayContaining(Object.keys(needed).map((field) => `${form}.${field}`)),
      );
    }
  }
});

test("each kind has a chapter of the reference", () => {
  for (const kind of NAMED_KINDS) expect(propertiesPage()).toMatch(new RegExp(`^## In an? .*${kind}$`, "m"));
});
