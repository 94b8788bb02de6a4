// What a property test was given: counted from the traces of its days, printed, and held to a least.
import { expect } from 'vitest';
import type { TraceEvent } from '../../src/trace/kinds.js';

interface DayFigures {
  readonly bursts: number;
  readonly tools: number;
  readonly workers: number;
  readonly losses: number;
}

export class Distribution {
  private readonly days: DayFigures[] = [];

  see(events: readonly TraceEvent[]): void {
    const count = (is: (event: TraceEvent) => boolean) => events.filter(is).length;
    this.days.push({
      bursts: count(({ kind }) => kind === 'hand.start'),
      tools: count(({ kind }) => kind === 'hand.tool'),
      workers: count(({ kind }) => kind === 'hand.worker'),
      losses: count((event) => event.kind === 'air.lost' && event.reason === 'loss'),
    });
  }

  /** Median ≥ 20 bursts that truly happened, ≥ 3 tools on every day, ≥ 30 % of days on which frames were lost in the air. */
  printAndHold(name: string): void {
    const { days } = this;
    const bursts = days.map((day) => day.bursts).sort((a, b) => a - b);
    const lossy = days.filter((day) => day.losses > 0).length;
    const [median, tools] = [bursts[Math.floor(bursts.length / 2)]!, days.map((day) => day.tools)];
    process.stdout.write(
      `${name}: ${days.length} days; bursts ${bursts[0]} to ${bursts.at(-1)}, median ${median}; ` +
        `tools ${spread(tools)}; workers ${spread(days.map((day) => day.workers))}; ` +
        `frames lost on ${Math.round((100 * lossy) / days.length)} % of days\n`,
    );
    expect(median).toBeGreaterThanOrEqual(20);
    expect(Math.min(...tools)).toBeGreaterThanOrEqual(3);
    expect(lossy / days.length).toBeGreaterThanOrEqual(0.3);
  }
}

/** "3:5 4:7": five times three, seven times four. */
function spread(numbers: readonly number[]): string {
  const counts = new Map<number, number>();
  for (const number of [...numbers].sort((a, b) => a - b)) counts.set(number, (counts.get(number) ?? 0) + 1);
  return [...counts].map(([number, count]) => `${number}:${count}`).join(' ');
}
