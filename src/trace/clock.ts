// Times of a trace as a person reads them: the time of day, from the ms since the start.

const DAY_MS = 86_400_000;

/**
 * Time of day at atMs (ms since the start) of a day that starts fromMs after midnight: "07:39:58", with ".300" where it
 * is no whole second, and with "day 2 " in front past midnight. Throws RangeError on negative or fractional times.
 */
export function clockText(fromMs: number, atMs: number): string {
  const ms = fromMs + atMs;
  if (!Number.isSafeInteger(ms) || ms < 0) throw new RangeError(`A time is a whole number of ms from 0, not ${ms}.`);
  const day = Math.floor(ms / DAY_MS) + 1;
  const rest = ms % DAY_MS;
  const time = [rest / 3_600_000, (rest / 60_000) % 60, (rest / 1000) % 60].map((part) => padded(part, 2)).join(':');
  const thousandths = rest % 1000 === 0 ? '' : `.${padded(rest % 1000, 3)}`;
  return `${day === 1 ? '' : `day ${day} `}${time}${thousandths}`;
}

function padded(value: number, width: number): string {
  return `${Math.floor(value)}`.padStart(width, '0');
}
