// What `counterproof trace` prints.
import { Bench } from '../../bench/bench.js';
import { canonicalLine } from '../../trace/canonical.js';
import { hashTrace } from '../../trace/hash.js';
import type { TraceEvent } from '../../trace/kinds.js';
import { momentMs, outsideText } from '../scenario/moment.js';
import { pickRun, type Refusal } from '../scenario/pick-run.js';

/** Lines printed in one piece. */
const LINES_A_PIECE = 1000;

export interface TraceOptions {
  readonly row?: string;
  readonly whatIf?: string;
  readonly from?: string;
  readonly until?: string;
  readonly hash?: boolean;
}

export function answerTrace(file: string, options: TraceOptions): { readonly pieces: Iterable<string> } | Refusal {
  const picked = pickRun(file, options);
  if ('refusal' in picked) return picked;
  const { day } = picked.run;
  const fromMs = momentMs(options.from, day.fromMs, 0);
  const untilMs = momentMs(options.until, day.fromMs, Infinity);
  if (typeof fromMs === 'string') return { refusal: `--from ${fromMs}\n` };
  if (typeof untilMs === 'string') return { refusal: `--until ${untilMs}\n` };
  if (fromMs >= untilMs) return { refusal: '--from is not before --until: nothing lies between them\n' };
  if (fromMs > day.untilMs || untilMs <= 0) {
    return { refusal: `that stretch ${outsideText(day)}\n` };
  }
  if (options.hash === true && (options.from ?? options.until) !== undefined) {
    return { refusal: '--hash is of the whole trace: leave --from and --until out\n' };
  }
  const bench = Bench.open(day);
  bench.run();
  if (options.hash === true) {
    const { whole, outward } = hashTrace(bench.events);
    return { pieces: [`whole    ${whole}\n`, `outward  ${outward}\n`] };
  }
  return { pieces: pieces(bench.events.filter(({ at }) => at >= fromMs && at < untilMs)) };
}

function* pieces(events: readonly TraceEvent[]): Iterable<string> {
  for (let start = 0; start < events.length; start += LINES_A_PIECE) {
    const lines = events.slice(start, start + LINES_A_PIECE).map(canonicalLine);
    yield `${lines.join('\n')}\n`;
  }
}
