/**
 * Zip archives of strangers (PKWARE APPNOTE 6.3: the directory at the end, sections 4.3.12 and 4.3.16): the directory
 * says what is in it before anything is unpacked, and what is unpacked must be as long as the directory says, and of its
 * checksum. Unpacking and checksum are Node's own.
 */
import { crc32, inflateRawSync } from "node:zlib";

export interface ZipEntry {
  readonly name: string;
  /** Unpacked, as the directory states it. */
  readonly sizeBytes: number;
  readonly packedBytes: number;
  readonly crc32: number;
  /** 0 stored, 8 deflated. */
  readonly method: number;
  readonly encrypted: boolean;
  readonly headerAt: number;
}

const END_OF_DIRECTORY = 0x06054b50;
const DIRECTORY_ENTRY = 0x02014b50;
const LOCAL_HEADER = 0x04034b50;
const END_BYTES = 22;
const LONGEST_COMMENT = 0xffff;
/** Stands for "in a longer record elsewhere", which only archives of over 4 GB need. */
const ELSEWHERE = 0xffffffff;

/** So much of an archive's end holds the directory of an archive of few files. */
export const DIRECTORY_BYTES = END_BYTES + LONGEST_COMMENT;

/**
 * The entries in the order of the directory.
 * @param bytes the archive, or its end
 * @param startsAt where in the archive `bytes` begin
 * @throws Error with one clause: what is wrong with the archive
 */
export function zipEntries(bytes: Uint8Array, startsAt = 0): ZipEntry[] {
  const view = new DataView(bytes.buffer, bytes.byteOffset, bytes.byteLength);
  const end = endOfDirectory(view);
  const count = view.getUint16(end + 10, true);
  let at = view.getUint32(end + 16, true) - startsAt;
  if (at < 0) throw new Error("holds more files than are looked at");
  const entries: ZipEntry[] = [];
  for (let i = 0; i < count; i++) {
    if (at + 46 > end || view.getUint32(at, true) !== DIRECTORY_ENTRY)
      throw new Error("has a damaged directory");
    const nameBytes = view.getUint16(at + 28, true);
    const entry: ZipEntry = {
      name: new TextDecoder().decode(bytes.subarray(at + 46, at + 46 + nameBytes)),
      sizeBytes: view.getUint32(at + 24, true),
      packedBytes: view.getUint32(at + 20, true),
      crc32: view.getUint32(at + 16, true),
      method: view.getUint16(at + 10, true),
      encrypted: (view.getUint16(at + 8, true) & 1) !== 0,
      headerAt: view.getUint32(at + 42, true),
    };
    if ([entry.sizeBytes, entry.packedBytes, entry.headerAt].includes(ELSEWHERE))
      throw new Error("is of the kind for over 4 GB");
    entries.push(entry);
    at += 46 + nameBytes + view.getUint16(at + 30, true) + view.getUint16(at + 32, true);
  }
  return entries;
}

function endOfDirectory(view: DataView): number {
  const least = Math.max(0, view.byteLength - END_BYTES - LONGEST_COMMENT);
  for (let at = view.byteLength - END_BYTES; at >= least; at--) {
    if (view.getUint32(at, true) !== END_OF_DIRECTORY) continue;
    if (at + END_BYTES + view.getUint16(at + 20, true) === view.byteLength) return at;
  }
  throw new Error("is no zip archive, or cut short");
}

/**
 * What is in an entry.
 * @param mostBytes more than this is not unpacked
 * @throws Error with one clause: what is wrong with it
 */
export function unzipEntry(bytes: Uint8Array, entry: ZipEntry, mostBytes: number): Uint8Array {
  const { name, sizeBytes, packedBytes, method, headerAt } = entry;
  if (entry.encrypted) throw new Error(`${name} is encrypted`);
  if (method !== 0 && method !== 8) throw new Error(`${name} is packed by method ${method}`);
  if (sizeBytes > mostBytes) throw new Error(`${name} holds ${sizeBytes} bytes, the most are ${mostBytes}`);
  const view = new DataView(bytes.buffer, bytes.byteOffset, bytes.byteLength);
  checkLocalName(bytes.subarray(headerAt), entry);
  const start = headerAt + 30 + view.getUint16(headerAt + 26, true) + view.getUint16(headerAt + 28, true);
  const packed = bytes.subarray(start, start + packedBytes);
  if (packed.length < packedBytes) throw new Error(`${name} is cut short`);
  const content = method === 0 ? packed : inflated(packed, name, sizeBytes);
  if (content.length !== sizeBytes)
    throw new Error(`${name} has ${content.length} bytes, the directory says ${sizeBytes}`);
  if (crc32(content) !== entry.crc32) throw new Error(`${name} is damaged: its checksum differs`);
  return content;
}

/**
 * The name decides where a tile lies, and no checksum covers it: the archive states it twice, and both must agree.
 * @param header the archive from the entry's `headerAt` on
 * @throws Error with one clause: what is wrong with the entry
 */
export function checkLocalName(header: Uint8Array, { name }: ZipEntry): void {
  const view = new DataView(header.buffer, header.byteOffset, header.byteLength);
  if (header.length < 30 || view.getUint32(0, true) !== LOCAL_HEADER)
    throw new Error(`${name} is not where the directory says`);
  const here = new TextDecoder().decode(header.subarray(30, 30 + view.getUint16(26, true)));
  if (here !== name) throw new Error(`${name} has another name where it lies`);
}

function inflated(packed: Uint8Array, name: string, sizeBytes: number): Uint8Array {
  try {
    // One byte more than stated is enough to see that there is more; an empty entry needs room for none.
    return inflateRawSync(packed, { maxOutputLength: Math.max(1, sizeBytes) });
  } catch (error) {
    const more = (error as { code?: string }).code === "ERR_BUFFER_TOO_LARGE";
    throw new Error(more ? `${name} unpacks to more than the directory says` : `${name} is damaged`);
  }
}
