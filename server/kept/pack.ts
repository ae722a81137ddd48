/** Values in bytes and back, with a checksum: a wrong byte is as good as nothing. */
import { createHash } from "node:crypto";
import { Deserializer, Serializer } from "node:v8";

const CHECKSUM_BYTES = 32;

/** Plain data, maps and arrays of numbers, as V8 writes them. The same value from the same steps gives the same bytes. */
export function bytesOf(value: unknown): Buffer {
  const serializer = new Serializer();
  serializer.writeHeader();
  serializer.writeValue(value);
  return serializer.releaseBuffer();
}

/** @throws Error when they are no value */
export function valueIn(bytes: Uint8Array): unknown {
  const deserializer = new Deserializer(bytes);
  deserializer.readHeader();
  return deserializer.readValue();
}

export function digestOf(...parts: readonly (string | Uint8Array)[]): Buffer {
  const hash = createHash("sha256");
  // Lengths keep the ends of parts apart.
  for (const part of parts) hash.update(`${part.length} `).update(part);
  return hash.digest();
}

export function sealed(content: Uint8Array): Buffer {
  return Buffer.concat([digestOf(content), content]);
}

/** What was sealed; undefined: these bytes are not what was written. */
export function unsealed(bytes: Buffer): Buffer | undefined {
  const content = bytes.subarray(CHECKSUM_BYTES);
  return digestOf(content).equals(bytes.subarray(0, CHECKSUM_BYTES)) ? content : undefined;
}
