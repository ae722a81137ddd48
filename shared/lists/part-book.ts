/** Antennas, radios, couplers and feeders that rows name or describe: of the catalogue, or entries with what is known. */
import type { Antenna } from "../design/catalogue.js";
import { trimmed } from "../format/numbers.js";
import type { EndRow, HopRow } from "./facts.js";
import { type Figure, figureText, readFigure } from "./figures.js";
import { asName } from "./names.js";
import { type NewPart, type Statement, statement } from "./state.js";

type Kind = NewPart["kind"];

/** What the design has in its catalogue. */
export interface Stocked {
  names(kind: Kind): readonly string[];
  antenna(name: string): Antenna | undefined;
}

interface Description {
  readonly diameter?: Figure;
  readonly gain?: Figure;
  readonly beamwidth?: Figure;
}

interface Made {
  readonly kind: Kind;
  readonly name: string;
  readonly description: Description;
  readonly modes: Map<string, Statement>;
}

const NO_WORDS: ReadonlySet<string> = new Set();

export class PartBook {
  private readonly made = new Map<string, Made>();
  private readonly known = new Map<string, string>();

  constructor(private readonly stocked: Stocked) {
    for (const kind of ["antenna", "radio", "coupler", "feeder"] as const)
      for (const name of stocked.names(kind)) this.known.set(keyOf(kind, name), name);
  }

  get parts(): readonly NewPart[] {
    return [...this.made.values()].map(({ kind, name, description, modes }) => ({
      kind,
      name,
      facts: [...factsOf(description), ...modes.values()],
    }));
  }

  antenna(end: Omit<EndRow, "site">, frequencyHz: number | undefined): string | undefined {
    const { antenna, antennaDiameter: diameter, antennaGain: gain, antennaBeamwidth: beamwidth } = end;
    const description = { diameter, gain, beamwidth };
    if (antenna === undefined) return this.described(description, frequencyHz);
    return this.part("antenna", antenna, { ...description, diameter: diameter ?? sizeIn(antenna) });
  }

  diversityAntenna(
    end: Omit<EndRow, "site">,
    main: string | undefined,
    frequencyHz: number | undefined,
  ): string | undefined {
    if (end.diversityAntenna !== undefined) return this.part("antenna", end.diversityAntenna);
    if (end.diversityHeight === undefined) return undefined;
    return this.described({ gain: end.diversityGain }, frequencyHz) ?? main;
  }

  radio(name: string, { width, lowestMode, highestMode, bitRate }: HopRow): string | undefined {
    const radio = this.part("radio", name);
    const made = radio === undefined ? undefined : this.made.get(keyOf("radio", radio));
    for (const modulation of [lowestMode, highestMode]) {
      if (!made || !width || modulation === undefined) continue;
      const key = `${figureText(width)} ${modulation}`;
      const rate = modulation === highestMode ? bitRate : undefined;
      if (made.modes.has(key)) continue;
      made.modes.set(
        key,
        statement(
          "mode",
          { name: "bandwidth", text: figureText(width) },
          { name: "modulation", text: modulation },
          rate && { name: "rate", label: "rate", text: figureText(rate) },
        ),
      );
    }
    return radio;
  }

  /** The name as the catalogue has it. */
  part(kind: Kind, written: string, description: Description = {}): string | undefined {
    const name = asName(written, NO_WORDS);
    if (name === undefined) return undefined;
    const known = this.known.get(keyOf(kind, written)) ?? this.known.get(keyOf(kind, name));
    if (known !== undefined) return known;
    const key = keyOf(kind, name);
    const made = this.made.get(key);
    this.made.set(key, {
      kind,
      name: made?.name ?? name,
      description: { ...given(description), ...given(made?.description ?? {}) },
      modes: made?.modes ?? new Map(),
    });
    return made?.name ?? name;
  }

  /** An antenna without a name is called by what is known of it: `DISH180-7`, `DISH-38.8dBi-7`. */
  private described(description: Description, frequencyHz: number | undefined): string | undefined {
    const { diameter, gain } = description;
    if (!diameter && !gain) return undefined;
    const size = diameter ? String(Math.round(diameter.value * 100)) : `-${trimmed(gain!.value, 1)}dBi`;
    const band = frequencyHz === undefined ? "" : `-${Math.round(frequencyHz / 1e9)}`;
    for (let number = 1; ; number++) {
      const name = `DISH${size}${band}${number === 1 ? "" : `-${number}`}`;
      const known = this.known.get(keyOf("antenna", name));
      if (known !== undefined) {
        if (isLike(this.stocked.antenna(known), description)) return known;
        continue;
      }
      const made = this.made.get(keyOf("antenna", name));
      if (!made || isSame(made.description, description)) return this.part("antenna", name, description);
    }
  }
}

/** `0,6 m Parabol` and `6 ft HP` say their diameter. */
function sizeIn(text: string): Figure | undefined {
  const [, digits, unit] = /(?:^|[^\p{L}\d.,])(\d+(?:[.,]\d+)?)\s*(m|cm|ft)(?![\p{L}\d])/iu.exec(text) ?? [];
  if (digits === undefined) return undefined;
  const read = readFigure(digits, "length", unit!.toLowerCase(), digits.includes(",") ? "," : ".");
  return read.ok && read.figure.value > 0.1 && read.figure.value < 6 ? read.figure : undefined;
}

function keyOf(kind: Kind, name: string): string {
  return `${kind} ${name.toLowerCase()}`;
}

function given(description: Description): Description {
  return Object.fromEntries(Object.entries(description).filter(([, value]) => value !== undefined));
}

function isSame(one: Description, other: Description): boolean {
  return (["diameter", "gain", "beamwidth"] as const).every((key) => one[key]?.value === other[key]?.value);
}

function isLike(antenna: Antenna | undefined, { diameter, gain, beamwidth }: Description): boolean {
  return (
    antenna !== undefined &&
    antenna.diameterM === diameter?.value &&
    antenna.gain[0]?.gainDbi === gain?.value &&
    antenna.beamwidthDeg === beamwidth?.value
  );
}

function factsOf({ diameter, gain, beamwidth }: Description): Statement[] {
  const one = (word: string, figure: Figure | undefined) =>
    figure ? [statement(word, { name: "value", text: figureText(figure) })] : [];
  return [...one("diameter", diameter), ...one("gain", gain), ...one("beamwidth", beamwidth)];
}
