// Since when a counter and a wearable could have told each other everything: both on site, both with power and awake, and no
// fault on the air between them, nor anybody with bad intent. Liveness is asked only after QUIET_MS of that. A clock that is
// off, a page that went bad and a sensor that failed stand in nobody's way.
import type { DeviceFacts } from './device-facts.js';
import { getOrMake } from './get-or-make.js';

export const QUIET_MS = 120_000;

/** Infinity stands for "not now". */
const NOT_NOW = Number.POSITIVE_INFINITY;

/** The air between a tool's counter and a worker's wearable. */
interface Pair {
  clearMs: number;
  attacks: number;
  quietMs: number;
}

export class Reach {
  /** By name of a tool or worker: on site since. */
  private readonly onSiteMs = new Map<string, number>();
  /** By tool, then by worker. */
  private readonly pairs = new Map<string, Map<string, Pair>>();

  constructor(private readonly device: (name: string) => DeviceFacts) {}

  leave(names: readonly string[]): void {
    for (const name of names) this.onSiteMs.set(name, NOT_NOW);
  }

  comeBack(names: readonly string[], atMs: number): void {
    for (const name of names) this.onSiteMs.set(name, atMs);
  }

  disturb(tool: string, worker: string): void {
    this.pair(tool, worker).clearMs = NOT_NOW;
  }

  attack(tool: string, worker: string): void {
    this.pair(tool, worker).attacks += 1;
  }

  /** what names the fault that ended; only those of the air matter here. */
  lift(tool: string, what: string, atMs: number): void {
    const [of, ...rest] = what.split(' ');
    const worker = rest.join(' ');
    if (of === 'air') this.pair(tool, worker).clearMs = atMs;
    if (of !== 'attack') return;
    const pair = this.pair(tool, worker);
    pair.attacks -= 1;
    pair.quietMs = atMs;
  }

  /** Time since which tool and worker are in reach without a fault, Infinity where they are not. */
  sinceMs(tool: string, worker: string): number {
    const { clearMs, attacks, quietMs } = this.pair(tool, worker);
    if (attacks > 0) return NOT_NOW;
    const onSiteMs = Math.max(this.onSiteMs.get(tool) ?? 0, this.onSiteMs.get(worker) ?? 0);
    const readyMs = Math.max(this.device(tool).readySinceMs, this.device(worker).readySinceMs);
    return Math.max(onSiteMs, readyMs, clearMs, quietMs);
  }

  private pair(tool: string, worker: string): Pair {
    return getOrMake(getOrMake(this.pairs, tool, newMap), worker, newPair);
  }
}

function newMap(): Map<string, Pair> {
  return new Map();
}

function newPair(): Pair {
  return { clearMs: 0, attacks: 0, quietMs: 0 };
}
