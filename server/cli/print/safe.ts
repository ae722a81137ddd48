/** Control characters in a design must not steer the terminal; each keeps its one column. */
export function safe(text: string): string {
  return text
    .replace(/\t/g, " ")
    .replace(/[\u0000-\u001f\u007f-\u009f\u2028\u2029\u202a-\u202e\u2066-\u2069]/g, "·");
}
