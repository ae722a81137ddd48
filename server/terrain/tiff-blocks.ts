/**
 * Unpacks the blocks (strips, tiles) of a TIFF within bounds. The library's decoders of DEFLATE, LZW and PackBits
 * unpack as far as the data lead, which a small file can make gigabytes, and hand out what they got where data end too
 * soon. Here a block must come out as long as the image says; the library then undoes the predictor.
 */
import * as zlib from "node:zlib";
import { getDecoder } from "geotiff";
import { addUpBigEndian, turnToBigEndian } from "./geotiff-predictor.js";

/** What the library knows of an image's blocks. */
interface DecoderParameters {
  readonly tileWidth: number;
  readonly tileHeight: number;
  readonly predictor: number;
  readonly bitsPerSample: number | ArrayLike<number>;
  readonly planarConfiguration: number;
  /** Version, and how what LERC made is packed once more. */
  readonly LercParameters?: ArrayLike<number>;
}

/** No raster is written with larger blocks; one in a single strip may be as large as all that is held in memory. */
const LARGEST_BLOCK_BYTES = 256 * 2 ** 20;

const NONE = 1;
const LZW = 5;
const DEFLATE = [8, 32946];
const PACKBITS = 32773;
const ZSTD = 50000;
const LERC = 34887;

/** Stands in the place of the library's pool of workers. */
export function boundedBlocks(littleEndian: boolean) {
  return {
    bindParameters: (compression: number | undefined, parameters: DecoderParameters) => ({
      decode: async (packed: ArrayBuffer): Promise<ArrayBuffer> => {
        // Its own bytes have one order whatever the file's, and the library would turn them once more.
        if (compression === LERC && !littleEndian) throw new Error(`compression method identifier ${LERC}`);
        if (compression === LERC) return lerc(new Uint8Array(packed), parameters);
        const plain = unpacked(compression ?? NONE, new Uint8Array(packed), blockOf(parameters));
        // Adding up differences in the machine's byte order would be wrong for big-endian files.
        const ownPredictor = parameters.predictor === 2 && !littleEndian;
        const decoder = await getDecoder(NONE, {
          ...parameters,
          predictor: ownPredictor ? 1 : parameters.predictor,
        } as never);
        const block = (await decoder.decode(plain)) as ArrayBuffer;
        if (ownPredictor) addUpBigEndian(block, parameters);
        if (parameters.predictor === 3 && !littleEndian) turnToBigEndian(block, parameters);
        return block;
      },
    }),
  };
}

interface Block {
  readonly rowBytes: number;
  readonly bytes: number;
}

function blockOf({ tileWidth, tileHeight, bitsPerSample, planarConfiguration }: DecoderParameters): Block {
  const bits = typeof bitsPerSample === "number" ? [bitsPerSample] : Array.from(bitsPerSample);
  const pixelBits = planarConfiguration === 2 ? bits[0]! : bits.reduce((sum, one) => sum + one, 0);
  const rowBytes = Math.ceil((tileWidth * pixelBits) / 8);
  const bytes = rowBytes * tileHeight;
  if (!(bytes > 0 && bytes <= LARGEST_BLOCK_BYTES))
    throw new Error(`blocks of ${tileWidth} x ${tileHeight} pixels are not read`);
  return { rowBytes, bytes };
}

/** The last strip of an image may have fewer rows than the others, and only whole ones. */
function unpacked(compression: number, packed: Uint8Array, block: Block): ArrayBuffer {
  const plain = unpackedBy(compression, packed, block.bytes);
  if (plain.length === 0 || plain.length % block.rowBytes !== 0)
    throw new Error(`a block unpacks to ${plain.length} bytes, of ${block.bytes}`);
  return plain.buffer.slice(plain.byteOffset, plain.byteOffset + plain.length) as ArrayBuffer;
}

function unpackedBy(compression: number, packed: Uint8Array, mostBytes: number): Uint8Array {
  if (compression === NONE) return packed.length > mostBytes ? packed.subarray(0, mostBytes) : packed;
  if (compression === LZW) return lzw(packed, mostBytes);
  if (compression === PACKBITS) return packBits(packed, mostBytes);
  return unpackedByNode(compression, packed, mostBytes);
}

function unpackedByNode(compression: number, packed: Uint8Array, mostBytes: number): Uint8Array {
  const unpack = DEFLATE.includes(compression)
    ? zlib.inflateSync
    : compression === ZSTD
      ? zstdOfNode
      : undefined;
  if (unpack === undefined) throw new Error(`compression method identifier ${compression}`);
  try {
    return unpack(packed, { maxOutputLength: mostBytes });
  } catch (error) {
    const more = (error as { code?: string }).code === "ERR_BUFFER_TOO_LARGE";
    throw new Error(more ? `a block unpacks to more than ${mostBytes} bytes` : "a block is damaged");
  }
}

/** Node has it from version 22.15 on. */
const zstdOfNode = (zlib as Partial<typeof zlib>).zstdDecompressSync;

/** How a LERC block is packed once more: not, by DEFLATE, by Zstandard. */
const LERC_PACKED_BY = [undefined, DEFLATE[0], ZSTD];

/**
 * A LERC block states its own size, which is held against the image's before the library allocates for it. The places
 * of rows and columns behind the mark, the version and, from version 3 on, the checksum were read off real blocks.
 */
async function lerc(packed: Uint8Array, parameters: DecoderParameters): Promise<ArrayBuffer> {
  const { bytes } = blockOf(parameters);
  const [version = 0, packedBy = 0] = Array.from(parameters.LercParameters ?? []);
  const method = LERC_PACKED_BY[packedBy];
  const plain = method === undefined ? packed : unpackedByNode(method, packed, 2 * bytes + 65_536);
  const view = new DataView(plain.buffer, plain.byteOffset, plain.byteLength);
  const isLerc2 = plain.length > 30 && new TextDecoder("latin1").decode(plain.subarray(0, 6)) === "Lerc2 ";
  if (!isLerc2) throw new Error("a block is no LERC data of version 2");
  const at = view.getInt32(6, true) >= 3 ? 14 : 10;
  const [rows, columns] = [view.getInt32(at, true), view.getInt32(at + 4, true)];
  if (rows < 1 || rows > parameters.tileHeight || columns !== parameters.tileWidth)
    throw new Error("a block does not fit its size");
  const decoder = await getDecoder(LERC, { ...parameters, LercParameters: [version, 0] } as never);
  // What Node unpacks may lie in the middle of a memory that holds other things.
  return (await decoder.decode(new Uint8Array(plain).buffer)) as ArrayBuffer;
}

/** PackBits (TIFF 6.0, section 9): a count and a byte to repeat, or a count and as many bytes. */
function packBits(packed: Uint8Array, mostBytes: number): Uint8Array {
  const plain = new Uint8Array(mostBytes);
  let filled = 0;
  for (let at = 0; at < packed.length && filled < mostBytes; ) {
    const count = (packed[at++]! << 24) >> 24;
    if (count === -128) continue;
    const length = 1 + Math.abs(count);
    if (filled + length > mostBytes || at + (count < 0 ? 1 : length) > packed.length)
      throw new Error("a block does not fit its size");
    if (count < 0) plain.fill(packed[at++]!, filled, filled + length);
    else {
      plain.set(packed.subarray(at, at + length), filled);
      at += length;
    }
    filled += length;
  }
  return plain.subarray(0, filled);
}

const CLEAR = 256;
const END = 257;
const MOST_CODES = 4096;

/**
 * LZW as TIFF has it (TIFF 6.0, section 13): codes of 9 to 12 bits, the first bit on top, a code longer one code before
 * the table needs it. The table holds for each code where in the output its string stands, so no string is built twice.
 */
function lzw(packed: Uint8Array, mostBytes: number): Uint8Array {
  const plain = new Uint8Array(mostBytes);
  const startOf = new Int32Array(MOST_CODES);
  const lengthOf = new Int32Array(MOST_CODES);
  let filled = 0;
  let next = END + 1;
  let bits = 9;
  let before = -1;
  let held = 0;
  let heldBits = 0;
  let at = 0;
  while (filled < mostBytes) {
    while (heldBits < bits) {
      if (at >= packed.length) throw new Error("a block is cut short");
      held = ((held << 8) | packed[at++]!) & 0xffffff;
      heldBits += 8;
    }
    heldBits -= bits;
    const code = (held >> heldBits) & ((1 << bits) - 1);
    if (code === END) break;
    if (code === CLEAR) {
      next = END + 1;
      bits = 9;
      before = -1;
      continue;
    }
    if (code > next || (code === next && before < 0) || (code >= CLEAR && before < 0))
      throw new Error("a block holds a code that is not in its table");
    const start = filled;
    if (before >= 0 && next < MOST_CODES) {
      // The string of the code before, and the byte that comes now: it stands in the output just so.
      startOf[next] = start - lengthBefore(before, lengthOf);
      lengthOf[next] = lengthBefore(before, lengthOf) + 1;
      next++;
    }
    const length = code < CLEAR ? 1 : lengthOf[code]!;
    if (start + length > mostBytes) throw new Error("a block does not fit its size");
    // Byte by byte: the string of a code that is being made reaches into itself.
    if (code < CLEAR) plain[filled++] = code;
    else for (let i = 0; i < length; i++) plain[filled++] = plain[startOf[code]! + i]!;
    before = code;
    if (next + 1 >= 1 << bits && bits < 12) bits++;
  }
  return plain.subarray(0, filled);
}

function lengthBefore(code: number, lengthOf: Int32Array): number {
  return code < CLEAR ? 1 : lengthOf[code]!;
}
