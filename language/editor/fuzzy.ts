/**
 * How well a query matches a name when its letters need only come in order: `kt` finds `KELD-TARN`.
 * @returns 0 for the best match, more for worse; undefined when it does not match
 */
export function fuzzyRank(query: string, name: string): number | undefined {
  const wanted = query.toLowerCase();
  const text = name.toLowerCase();
  const whole = text.indexOf(wanted);
  if (whole === 0) return text.length === wanted.length ? 0 : 1;
  if (whole > 0) return 2;
  let at = -1;
  let gaps = 0;
  for (const letter of wanted) {
    const next = text.indexOf(letter, at + 1);
    if (next < 0) return undefined;
    if (next > at + 1) gaps++;
    at = next;
  }
  return 3 + gaps;
}
