/** The average year of 365.25 days, by which shares of time become durations. */
export const SECONDS_A_YEAR = 31_557_600;
export const MINUTES_A_YEAR = SECONDS_A_YEAR / 60;
export const HOURS_A_YEAR = SECONDS_A_YEAR / 3600;
