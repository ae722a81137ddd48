/** Predictors of TIFF in files whose bytes stand the other way round than in the machine. */

interface Block {
  readonly tileWidth: number;
  readonly tileHeight: number;
  readonly bitsPerSample: number | ArrayLike<number>;
  readonly planarConfiguration: number;
}

/**
 * Horizontal differencing in the file's byte order (TIFF 6.0, section 14): each sample is the sum of the differences up
 * to it in its row. geotiff 3.0.5 adds them up in the machine's byte order, which yields wrong heights without an error
 * for big-endian files.
 */
export function addUpBigEndian(block: ArrayBuffer, parameters: Block): void {
  const { tileWidth, tileHeight, bitsPerSample, planarConfiguration } = parameters;
  const bits = typeof bitsPerSample === "number" ? [bitsPerSample] : Array.from(bitsPerSample);
  if (bits.some((b) => b !== bits[0]) || (bits[0] !== 16 && bits[0] !== 32)) {
    throw new Error(`predictor 2 with ${bits.join(", ")} bits a sample is not supported`);
  }
  const samplesPerPixel = planarConfiguration === 2 ? 1 : bits.length;
  const bytes = bits[0]! / 8;
  const samplesPerRow = tileWidth * samplesPerPixel;
  const view = new DataView(block);
  for (let row = 0; row < tileHeight; row++) {
    const rowStart = row * samplesPerRow * bytes;
    // The last strip of an image may have fewer rows than the others.
    if (rowStart + samplesPerRow * bytes > view.byteLength) break;
    for (let i = samplesPerPixel; i < samplesPerRow; i++) {
      const at = rowStart + i * bytes;
      const before = at - samplesPerPixel * bytes;
      if (bytes === 2) view.setUint16(at, view.getUint16(at) + view.getUint16(before));
      else view.setUint32(at, view.getUint32(at) + view.getUint32(before));
    }
  }
}

/**
 * Samples that the library has put together from floating point differences, turned into the file's byte order. Those
 * differences are of bytes in the order of big-endian files, whatever the file's own (TIFF Technical Note 3), and
 * geotiff 3.0.5 makes little-endian samples of them, which it then reads as the file's.
 */
export function turnToBigEndian(block: ArrayBuffer, { bitsPerSample }: Block): void {
  const bits = typeof bitsPerSample === "number" ? [bitsPerSample] : Array.from(bitsPerSample);
  if (bits.some((b) => b !== bits[0]))
    throw new Error(`predictor 3 with ${bits.join(", ")} bits a sample is not supported`);
  const bytes = Buffer.from(block);
  if (bits[0] === 16) bytes.swap16();
  else if (bits[0] === 32) bytes.swap32();
  else if (bits[0] === 64) bytes.swap64();
  else throw new Error(`predictor 3 with ${bits[0]} bits a sample is not supported`);
}
