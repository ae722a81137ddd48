/**
 * Facts put into the fields of the design that their rows name (`into` of an argument, `schema/into.ts`). What a row
 * cannot say, a figure that depends on another or falls back on one, stands by hand beside the call.
 *
 * Who writes into what is worked out once, by row; a block is read in one pass, however many rows the table has.
 */
import { type Argument, type Fact, factsNamed } from "../facts/fact.js";
import { alternatives, PROPERTIES } from "../schema/index.js";
import { type Entries, NEEDED, type Parts, type Things } from "../schema/into.js";
import type { ArgSpec, Property } from "../schema/types.js";
import type { Lookup } from "./lookup.js";

/** What a name is looked up in. */
export type Names = Pick<Lookup, "radio" | "antenna" | "coupler" | "feeder" | "cable" | "objective">;

interface Slot {
  readonly spec: ArgSpec;
  readonly field: string;
  readonly read: (value: NonNullable<Argument["value"]>, names: Names) => unknown;
}

/** What a statement writes into one thing: fields of its own, and fields that it fills as a whole. */
interface Writing {
  readonly slots: readonly Slot[];
  readonly parts: readonly { readonly field: string; readonly form: Form }[];
}

/** An object of one statement. */
interface Form {
  readonly slots: readonly Slot[];
  /** All of its fields, so that each such object has the same shape. */
  readonly blank: Readonly<Record<string, undefined>>;
  readonly needed: readonly string[];
}

interface Reader {
  readonly of: ReadonlyMap<Property, Writing>;
  readonly blank: Readonly<Record<string, undefined>>;
}

type Fields = Record<string, unknown>;

/** The fields of a thing that a block's facts state. The first of doubled statements counts. */
export function fieldsOf<T extends keyof Things>(
  thing: T,
  facts: readonly Fact[],
  names: Names,
): Partial<Things[T]> {
  const { of, blank } = THINGS.get(thing)!;
  const filled: Fields = { ...blank };
  for (let at = facts.length - 1; at >= 0; at--) {
    const fact = facts[at]!;
    const writing = of.get(fact.property);
    if (writing === undefined) continue;
    write(filled, writing.slots, fact, names);
    for (const { field, form } of writing.parts) filled[field] = made(form, fact, names);
  }
  return filled as Partial<Things[T]>;
}

/** What each statement of a name makes; one that lacks what the entry cannot be without makes nothing. */
export function entriesOf<E extends keyof Entries>(
  entry: E,
  facts: readonly Fact[],
  statement: string,
  names: Names,
): readonly Entries[E][] {
  const forms = ENTRIES.get(entry)!;
  return factsNamed(facts, statement).flatMap((fact) => {
    const form = forms.get(fact.property);
    return form ? ((made(form, fact, names) as Entries[E] | undefined) ?? []) : [];
  });
}

function made({ slots, blank, needed }: Form, fact: Fact, names: Names): Fields | undefined {
  const filled: Fields = { ...blank };
  write(filled, slots, fact, names);
  if (needed.some((field) => filled[field] === undefined)) return undefined;
  return "fromHz" in filled ? inOrder(filled) : filled;
}

/** `19.7 GHz to 17.7 GHz` is the same range. */
function inOrder({ fromHz, toHz }: Fields): Fields {
  return (fromHz as number) <= (toHz as number) ? { fromHz, toHz } : { fromHz: toHz, toHz: fromHz };
}

function write(filled: Fields, slots: readonly Slot[], { args }: Fact, names: Names): void {
  for (const { spec, field, read } of slots) {
    const value = args.find((arg) => arg.spec === spec)?.value;
    filled[field] = value && read(value, names);
  }
}

const { things: THINGS, entries: ENTRIES } = readersOf(PROPERTIES);

function readersOf(rows: readonly Property[]) {
  const things = new Map<string, { of: Map<Property, Writing>; blank: Record<string, undefined> }>();
  const entries = new Map<string, Map<Property, Form>>();
  for (const row of rows) {
    const placed = row.args.flatMap((spec) =>
      placesOf(spec).map((place) => ({ spec, place: place.split(".") })),
    );
    for (const thing of new Set(placed.map(({ place }) => place[0]!))) {
      const own = placed.filter(({ place }) => place[0] === thing);
      if (Object.hasOwn(NEEDED, thing)) {
        const forms = entries.get(thing) ?? new Map<Property, Form>();
        entries.set(thing, forms.set(row, formOf(thing as keyof Entries, own)));
        continue;
      }
      const reader: Reader = things.get(thing) ?? { of: new Map(), blank: {} };
      const inParts = new Set(
        own.flatMap(({ place: [, field, inner] }) => (inner === undefined ? [] : field!)),
      );
      const writing: Writing = {
        slots: own.filter(({ place }) => place.length === 2).map(slotOf),
        parts: [...inParts].map((field) => ({
          field,
          form: formOf(
            `${thing}.${field}` as keyof Parts,
            own.filter(({ place }) => place.length === 3 && place[1] === field),
          ),
        })),
      };
      const fields = own.map(({ place }) => place[1]!);
      things.set(thing, {
        of: new Map([...reader.of, [row, writing]]),
        blank: { ...reader.blank, ...blankOf(fields) },
      });
    }
  }
  return { things, entries } as const;
}

interface Placed {
  readonly spec: ArgSpec;
  readonly place: readonly string[];
}

function placesOf({ into }: ArgSpec): readonly string[] {
  if (into === undefined) return [];
  return typeof into === "string" ? [into] : into;
}

function formOf(name: keyof (Entries & Parts), placed: readonly Placed[]): Form {
  const slots = placed.map(slotOf);
  return { slots, blank: blankOf(slots.map(({ field }) => field)), needed: Object.keys(NEEDED[name]) };
}

function blankOf(fields: readonly string[]): Record<string, undefined> {
  return Object.fromEntries(fields.map((field) => [field, undefined]));
}

function slotOf({ spec, place }: Placed): Slot {
  return { spec, field: place.at(-1)!, read: readOf(spec) };
}

function readOf(spec: ArgSpec): Slot["read"] {
  const [value] = alternatives(spec);
  if (value?.type === "word" && Object.keys(value.words).join() === "yes,no")
    return (one) => (one.type === "word" ? one.word === "yes" : undefined);
  return (one, names) => {
    switch (one.type) {
      case "quantity":
        return one.base;
      case "number":
        return one.number;
      case "word":
      case "free":
        return one.word;
      case "text":
        return one.text;
      case "date":
        return one.date;
      case "position":
        return one.position;
      case "reference":
        return Object.hasOwn(names, one.kind) ? names[one.kind as keyof Names](one.name) : one.name;
      default:
        return undefined;
    }
  };
}
