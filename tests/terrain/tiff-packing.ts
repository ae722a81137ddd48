/** Packings of TIFF that no library at hand writes, after TIFF 6.0. */

const CLEAR = 256;
const END = 257;

/** Section 13: codes of 9 to 12 bits, the first bit on top, each longer as soon as the table has 511, 1023, 2047 codes. */
export function lzw(bytes: Uint8Array): Uint8Array {
  const out: number[] = [];
  let [held, heldBits, width, next] = [0, 0, 9, END + 1];
  const table = new Map<number, number>();
  const emit = (code: number) => {
    held = (held << width) | code;
    for (heldBits += width; heldBits >= 8; heldBits -= 8) out.push((held >> (heldBits - 8)) & 0xff);
    held &= (1 << heldBits) - 1;
  };
  const grow = () => {
    if (++next >= 1 << width) width++;
  };
  emit(CLEAR);
  let string = -1;
  for (const byte of bytes) {
    const key = string * 256 + byte;
    const known = string < 0 ? byte : table.get(key);
    if (known !== undefined) {
      string = known;
      continue;
    }
    emit(string);
    table.set(key, next);
    grow();
    string = byte;
    if (next < 4094) continue;
    emit(CLEAR);
    table.clear();
    [width, next] = [9, END + 1];
  }
  if (string >= 0) {
    emit(string);
    grow();
  }
  emit(END);
  if (heldBits > 0) out.push((held << (8 - heldBits)) & 0xff);
  return Uint8Array.from(out);
}

/** Section 9: runs of bytes as they are, and of one byte. */
export function packBits(bytes: Uint8Array): Uint8Array {
  const out: number[] = [];
  for (let at = 0; at < bytes.length; ) {
    let same = 1;
    while (same < 128 && bytes[at + same] === bytes[at]) same++;
    if (same > 2) {
      out.push(257 - same, bytes[at]!);
      at += same;
    } else {
      const run = bytes.subarray(at, at + 2);
      out.push(run.length - 1, ...run);
      at += run.length;
    }
  }
  return Uint8Array.from(out);
}
