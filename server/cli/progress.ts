import type { Pace } from "../session/design-session.js";

const SILENT_MS = 500;
const BETWEEN_MS = 100;

/** One line on standard error that counts hops: on a terminal only, and only once the work has taken a while. */
export function progressLine(): { readonly pace: Pace; end(): void } {
  if (!process.stderr.isTTY) return { pace: {}, end: () => {} };
  const start = performance.now();
  let next = start + SILENT_MS;
  let shown = false;
  return {
    pace: {
      pause(done, total) {
        const now = performance.now();
        if (now < next) return undefined;
        next = now + BETWEEN_MS;
        shown = true;
        process.stderr.write(`\r\x1b[2K${done} of ${total} hops`);
        return undefined;
      },
    },
    end() {
      if (shown) process.stderr.write("\r\x1b[2K");
    },
  };
}
