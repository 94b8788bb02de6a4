// Since when a counter and a wearable could have told each other everything: both on site, and no fault on the air between
// them. Liveness is asked only after QUIET_MS of that.
import { getOrMake } from './get-or-make.js';

export const QUIET_MS = 120_000;

/** Infinity stands for "not now". */
const NOT_NOW = Number.POSITIVE_INFINITY;

export class Reach {
  /** By name of a tool or worker: on site since. */
  private readonly onSiteMs = new Map<string, number>();
  /** By tool, then by worker: clear air since. */
  private readonly clearMs = new Map<string, Map<string, number>>();

  leave(names: readonly string[]): void {
    for (const name of names) this.onSiteMs.set(name, NOT_NOW);
  }

  comeBack(names: readonly string[], atMs: number): void {
    for (const name of names) this.onSiteMs.set(name, atMs);
  }

  disturb(tool: string, worker: string): void {
    getOrMake(this.clearMs, tool, newMap).set(worker, NOT_NOW);
  }

  /** what names the fault that ended; only those of the air matter here. */
  lift(tool: string, what: string, atMs: number): void {
    const worker = airWorker(what);
    if (worker !== undefined) getOrMake(this.clearMs, tool, newMap).set(worker, atMs);
  }

  /** Time since which tool and worker are in reach without a fault, Infinity where they are not. */
  sinceMs(tool: string, worker: string): number {
    const onSiteMs = Math.max(this.onSiteMs.get(tool) ?? 0, this.onSiteMs.get(worker) ?? 0);
    return Math.max(onSiteMs, this.clearMs.get(tool)?.get(worker) ?? 0);
  }
}

function newMap(): Map<string, number> {
  return new Map();
}

/** The lifting of a fault on the air names it "air" and the worker. */
function airWorker(what: string): string | undefined {
  return what.startsWith('air ') ? what.slice('air '.length) : undefined;
}
