// Which device has which identity: counters are numbered from 1 in the order in which the trace names the tools, wearables go on
// from there in the order of the workers.
import type { TraceEvent } from './kinds.js';

export interface Devices {
  readonly tools: readonly string[];
  readonly workers: readonly string[];
}

/** As the opening of a trace tells. */
export function devicesOf(events: readonly TraceEvent[]): Devices {
  const named = (kind: TraceEvent['kind']) => events.filter((event) => event.kind === kind).map(({ by }) => by);
  return { tools: named('hand.tool'), workers: named('hand.worker') };
}

/** Of the counter of a tool, or of the wearable of a worker; 0 where nobody has the name, as an attacker has none. */
export function identityOf({ tools, workers }: Devices, name: string): number {
  return [...tools, ...workers].indexOf(name) + 1;
}

/** The tool of a counter; null where the day has no counter of that identity. */
export function toolOf({ tools }: Devices, counter: number): string | null {
  return tools[counter - 1] ?? null;
}

/** The worker of a wearable; null where the day has no wearable of that identity. */
export function workerOf({ tools, workers }: Devices, wearable: number): string | null {
  return workers[wearable - tools.length - 1] ?? null;
}
