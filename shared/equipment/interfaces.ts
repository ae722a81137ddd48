/**
 * Whether two waveguide interfaces bolt together. IEC 60154-2 names a flange by three letters and the guide's number
 * (`UBR220`): plain, grooved or choke face; type; ordinary rectangular guide. Letters of the faces were read on a
 * public page, the rest is from memory, not checked against the standard. Any other name is compared as a word.
 */

export interface InterfaceMatch {
  readonly fits: boolean;
  /** What parts them, or what to mind although they fit. */
  readonly remark?: string;
}

export function interfacesFit(one: string, other: string): InterfaceMatch {
  const a = flange(one);
  const b = flange(other);
  if (a === undefined || b === undefined) {
    return one.toUpperCase() === other.toUpperCase()
      ? { fits: true }
      : { fits: false, remark: `${one} and ${other} are different interfaces` };
  }
  if (a.guide !== b.guide) return { fits: false, remark: `guide R${a.guide} meets guide R${b.guide}` };
  if (a.type !== b.type) return { fits: false, remark: `flange type ${a.type} meets type ${b.type}` };
  const faces = [a.face, b.face].sort().join("");
  if (faces === "CC") return { fits: false, remark: "two choke flanges do not mate" };
  if (faces === "CP") return { fits: false, remark: "a choke flange mates with a plain one only" };
  return faces === "PP" ? { fits: true, remark: "two grooved flanges need one gasket only" } : { fits: true };
}

interface Flange {
  readonly face: string;
  readonly type: string;
  readonly guide: string;
}

/** `UBR220`, `PBR 220`, `UBR-220`. */
function flange(name: string): Flange | undefined {
  const found = /^([UPC])([A-E])R[ -]?(\d{2,4})$/i.exec(name);
  if (found === null) return undefined;
  const [, face, type, guide] = found as unknown as [string, string, string, string];
  return { face: face.toUpperCase(), type: type.toUpperCase(), guide };
}
