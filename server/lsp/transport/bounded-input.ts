/**
 * Messages as they come in over a stream, by bounds: the protocol's library would hold a header that never ends and a
 * message of any size. What is too large is passed over byte by byte, and a small message stands in for it.
 */
import { Transform, type TransformCallback } from "node:stream";
import { REFUSED_MESSAGE, type RefusedParams } from "./gate.js";

/** Six bytes for each of the 20 MB that a document may have, as JSON writes what it escapes, and what goes around it. */
export const MOST_MESSAGE_BYTES = 128 * 2 ** 20;
/** A header has two lines. */
const MOST_HEADER_BYTES = 4_096;
const HEADER_END = "\r\n\r\n";
/** As much of a message as is looked at for its identifier. */
const LOOKED_AT_BYTES = 256;

export class BoundedInput extends Transform {
  /** Of a header that has not ended yet. */
  private header = Buffer.alloc(0);
  /** Of the message that is passed on. */
  private leftBytes = 0;
  private skipped: { readonly bytes: number; left: number; begin: Buffer } | undefined;

  /** @throws Error by way of the stream, when what comes is no message and no next one can be found */
  override _transform(piece: Buffer, _encoding: BufferEncoding, done: TransformCallback): void {
    try {
      for (let rest = piece; rest.length > 0; ) rest = this.accept(rest);
      done();
    } catch (error) {
      done(error as Error);
    }
  }

  /** @returns what is left of the piece */
  private accept(piece: Buffer): Buffer {
    if (this.leftBytes > 0) {
      const part = piece.subarray(0, this.leftBytes);
      this.leftBytes -= part.length;
      this.push(part);
      return piece.subarray(part.length);
    }
    return this.skipped ? this.skip(piece, this.skipped) : this.takeHeader(piece);
  }

  private takeHeader(piece: Buffer): Buffer {
    const before = this.header.length;
    this.header = Buffer.concat([this.header, piece.subarray(0, MOST_HEADER_BYTES)]);
    const end = this.header.indexOf(HEADER_END);
    if (end < 0) {
      if (this.header.length >= MOST_HEADER_BYTES)
        throw new Error(`a header of more than ${MOST_HEADER_BYTES} bytes`);
      return piece.subarray(MOST_HEADER_BYTES);
    }
    const bytes = lengthIn(this.header.toString("latin1", 0, end));
    this.header = Buffer.alloc(0);
    if (bytes <= MOST_MESSAGE_BYTES) this.pass(bytes);
    else this.skipped = { bytes, left: bytes, begin: Buffer.alloc(0) };
    return piece.subarray(end + HEADER_END.length - before);
  }

  private pass(bytes: number): void {
    this.push(`Content-Length: ${bytes}${HEADER_END}`);
    this.leftBytes = bytes;
  }

  private skip(piece: Buffer, skipped: NonNullable<BoundedInput["skipped"]>): Buffer {
    const part = piece.subarray(0, skipped.left);
    if (skipped.begin.length < LOOKED_AT_BYTES)
      skipped.begin = Buffer.concat([skipped.begin, part.subarray(0, LOOKED_AT_BYTES)]);
    skipped.left -= part.length;
    if (skipped.left === 0) {
      this.skipped = undefined;
      const instead = Buffer.from(JSON.stringify(standIn(skipped.bytes, skipped.begin.toString("latin1"))));
      this.pass(instead.length);
      this.leftBytes = 0;
      this.push(instead);
    }
    return piece.subarray(part.length);
  }
}

function lengthIn(header: string): number {
  const [, written] = /^content-length[ \t]*:[ \t]*(\d{1,15})[ \t]*$/im.exec(header) ?? [];
  if (written === undefined) throw new Error("a header without the length of its message");
  return Number(written);
}

/** A request is answered where its identifier stands at the beginning, as the libraries write it. */
function standIn(bytes: number, begin: string): object {
  const [, id] =
    /^\s*\{\s*(?:"jsonrpc"\s*:\s*"2\.0"\s*,\s*)?"id"\s*:\s*(\d{1,15}|"[\w-]*")\s*,/.exec(begin) ?? [];
  const [, method = "a message"] = /"method"\s*:\s*"([\w$/]+)"/.exec(begin) ?? [];
  const reason = `it has ${Math.ceil(bytes / 2 ** 20)} MB, and up to ${MOST_MESSAGE_BYTES / 2 ** 20} MB are read`;
  const params: RefusedParams = { method, reason };
  return { jsonrpc: "2.0", ...(id !== undefined && { id: JSON.parse(id) }), method: REFUSED_MESSAGE, params };
}
