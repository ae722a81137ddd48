/** Long work with stops, at which whoever waits may let other work in or break off. */

export type Steps<T> = Generator<void, T>;

/** All at once. */
export function atOnce<T>(steps: Steps<T>): T {
  for (let step = steps.next(); ; step = steps.next()) if (step.done) return step.value;
}
