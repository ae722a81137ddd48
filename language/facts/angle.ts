/**
 * An angle as the layout writes it. Reading goes by it too, so that laying out a file can't change what an angle is.
 * A blank between two digits stays: nobody knows which of them is missing a sign.
 */
export function canonicalAngle(text: string): string {
  return text
    .replace(/\s+(?!\d)|(?<!\d)\s+/g, "")
    .replace(/[′’]/g, "'")
    .replace(/[″”]/g, '"')
    .replace("º", "°")
    .toUpperCase();
}
