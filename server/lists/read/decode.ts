/** The text in the bytes of a list: by its mark, else UTF-8 where it is that, else as spreadsheets of old write. */

export interface Decoded {
  readonly text: string;
  readonly encoding: string;
  readonly notes: readonly string[];
}

export function decode(bytes: Uint8Array): Decoded {
  const wide = wideEncoding(bytes);
  if (wide) return { text: new TextDecoder(wide).decode(bytes), encoding: wide.toUpperCase(), notes: [] };
  const notes = bytes.includes(0) ? ["it holds zero bytes, which are passed over"] : [];
  try {
    return { text: new TextDecoder("utf-8", { fatal: true }).decode(bytes), encoding: "UTF-8", notes };
  } catch {
    return {
      text: new TextDecoder("windows-1252").decode(bytes),
      encoding: "windows-1252 (it is no UTF-8)",
      notes,
    };
  }
}

const SAMPLE_BYTES = 2_000;

/** By the mark, or by every second byte being zero, as of Latin letters. */
function wideEncoding(bytes: Uint8Array): "utf-16le" | "utf-16be" | undefined {
  if (bytes[0] === 0xff && bytes[1] === 0xfe) return "utf-16le";
  if (bytes[0] === 0xfe && bytes[1] === 0xff) return "utf-16be";
  const sample = bytes.subarray(0, SAMPLE_BYTES);
  const zeros = [0, 0];
  for (const [i, byte] of sample.entries()) if (byte === 0) zeros[i % 2]!++;
  const most = sample.length * 0.4;
  if (sample.length < 8) return undefined;
  return zeros[1]! > most ? "utf-16le" : zeros[0]! > most ? "utf-16be" : undefined;
}
