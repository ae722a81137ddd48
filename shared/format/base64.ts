/** Bytes as text, RFC 4648 section 4: the core has neither Node's Buffer nor a browser's `btoa`. */

const SIGNS = "ABCDEFGHIJKLMNOPQRSTUVWXYZabcdefghijklmnopqrstuvwxyz0123456789+/";

/** Padded with `=` to a multiple of four signs. */
export function base64(bytes: Uint8Array): string {
  const parts: string[] = [];
  for (let at = 0; at < bytes.length; at += 3) {
    const left = bytes.length - at;
    const group = (bytes[at]! << 16) | ((bytes[at + 1] ?? 0) << 8) | (bytes[at + 2] ?? 0);
    parts.push(
      SIGNS[group >> 18]! +
        SIGNS[(group >> 12) & 63]! +
        (left > 1 ? SIGNS[(group >> 6) & 63]! : "=") +
        (left > 2 ? SIGNS[group & 63]! : "="),
    );
  }
  return parts.join("");
}
