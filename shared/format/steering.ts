/**
 * Characters that steer whatever shows a text instead of standing in it: controls (C0, delete, C1), line and paragraph
 * separators, and the marks that turn the direction of what follows (Unicode 16, section 23.2), by which a name can show
 * as another.
 */
const STEERING = /[\u0000-\u001f\u007f-\u009f\u2028\u2029\u202a-\u202e\u2066-\u2069]/g;

/** @param instead of each; called with the character */
export function withoutSteering(text: string, instead: (character: string) => string): string {
  return text.replace(STEERING, instead);
}

/** JSON whose strings steer nothing, and read back as the same; the line ends between its values stay. */
export function steeringEscaped(json: string): string {
  return withoutSteering(json, (character) =>
    character === "\n" ? character : `\\u${character.charCodeAt(0).toString(16).padStart(4, "0")}`,
  );
}
