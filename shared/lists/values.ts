/** Words in cells as the words of the language: polarizations, halves, structures, arrangements, modulations. */
import { ARRANGEMENTS } from "../radio/arrangements.js";
import type { FieldKey } from "./field.js";

/** @returns undefined where the word is none of the language's */
export function wordFor(key: FieldKey, text: string): string | undefined {
  switch (key) {
    case "polarization":
      return own(POLARIZATIONS, text.toLowerCase());
    case "transmits":
      return own(HALVES, text.toLowerCase());
    case "structure":
      return structureOf(text.toLowerCase());
    case "arrangement":
      return arrangementOf(text);
    case "mounting":
      return own(MOUNTINGS, text.toLowerCase());
    case "lowestMode":
    case "highestMode":
      return modulationOf(text);
    default:
      return text;
  }
}

/** A word that is no property of all objects by chance. */
function own(words: Readonly<Record<string, string>>, word: string): string | undefined {
  return Object.hasOwn(words, word) ? words[word] : undefined;
}

const POLARIZATIONS: Readonly<Record<string, string>> = {
  v: "vertical",
  vert: "vertical",
  vertical: "vertical",
  vertikal: "vertical",
  h: "horizontal",
  hor: "horizontal",
  horiz: "horizontal",
  horizontal: "horizontal",
  slant: "slant",
  "45": "slant",
  "45°": "slant",
};

const HALVES: Readonly<Record<string, "high" | "low">> = {
  high: "high",
  hi: "high",
  h: "high",
  upper: "high",
  u: "high",
  oberband: "high",
  low: "low",
  lo: "low",
  l: "low",
  lower: "low",
  unterband: "low",
};

const MOUNTINGS: Readonly<Record<string, string>> = {
  direct: "direct",
  integrated: "direct",
  separate: "separate",
  remote: "separate",
};

const STRUCTURES: readonly (readonly [RegExp, string])[] = [
  [/\b(roof|rooftop|building|dach|gebaude|gebäude|azotea|toit|hotel|church|silo building)\b/, "roof"],
  [/\b(chimney|silo|schornstein|kamin|water ?tower)\b/, "chimney"],
  [/\b(monopole|pole|stub|wall|post)\b|rohrmast/, "pole"],
  [/\b(tower|lattice|self.?supporting|torre|pylone?)\b|turm|gittermast/, "tower"],
  [/\b(guyed|stayed)\b|mast/, "mast"],
];

function structureOf(text: string): string | undefined {
  return STRUCTURES.find(([pattern]) => pattern.test(text))?.[1];
}

function arrangementOf(text: string): string | undefined {
  const plain = text
    .toLowerCase()
    .replace(/\s*\+\s*/g, "+")
    .replace(/[\s_,()/-]+/g, " ")
    .trim();
  const words = plain
    .replace(/\b(hsb|hs|hot standby|mhsb|standby)\b/, "hot-standby")
    .replace(/\b(sd|space diversity)\b/, "space-diversity")
    .replace(/\b(fd|frequency diversity)\b/, "frequency-diversity");
  const found = ARRANGEMENTS.find(
    ({ name }) => name === text.toLowerCase() || name.replace(/-/g, " ") === plain,
  );
  return (found ?? ARRANGEMENTS.find(({ name }) => name === words))?.name;
}

/** `128 QAM`, `QAM-128`, `qpsk` as the trade writes them in one word; other words as they are. */
function modulationOf(text: string): string | undefined {
  const plain = text.trim().toUpperCase();
  const [, before, kind, behind] = /^(\d{1,4})?[\s/-]*(QAM|PSK|TCM|FSK)[\s/-]*(\d{1,4})?$/.exec(plain) ?? [];
  if (kind !== undefined && (before ?? behind) !== undefined) return `${before ?? behind}${kind}`;
  return /^[A-Z\d][A-Z\d.+-]*$/.test(plain) && /[A-Z]/.test(plain) ? plain : undefined;
}
