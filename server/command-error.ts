/** The design or the command could not be read: told in one line (path, cause, remedy), exit status 2. */
export class CommandError extends Error {}

export const EXIT = { clean: 0, findings: 1, unreadable: 2 } as const;
