// Which device has which identity: counters are numbered from 1 in the order in which the trace names the tools, wearables go on
// from there in the order of the workers.
import type { TraceEvent } from '../../trace/kinds.js';

export interface Devices {
  readonly tools: readonly string[];
  readonly workers: readonly string[];
}

export function devicesOf(events: readonly TraceEvent[]): Devices {
  const named = (kind: TraceEvent['kind']) => events.filter((event) => event.kind === kind).map(({ by }) => by);
  return { tools: named('hand.tool'), workers: named('hand.worker') };
}

/** Of the counter of a tool, or of the wearable of a worker. Throws where nobody has the name. */
export function identityOf({ tools, workers }: Devices, name: string): number {
  const index = [...tools, ...workers].indexOf(name);
  if (index === -1) throw new Error(`the trace names no ${name}`);
  return index + 1;
}

/** The tool of a counter; null where the day has no counter of that identity. */
export function toolOf({ tools }: Devices, counter: number): string | null {
  return tools[counter - 1] ?? null;
}

/** The worker of a wearable; null where the day has no wearable of that identity. */
export function workerOf({ tools, workers }: Devices, wearable: number): string | null {
  return workers[wearable - tools.length - 1] ?? null;
}

/** "breaker's counter", "Edda's wearable", or what is known of a device that the day does not have. */
export function deviceText({ tools, workers }: Devices, identity: number): string {
  const tool = tools[identity - 1];
  if (tool !== undefined) return `${tool}'s counter`;
  const worker = workers[identity - tools.length - 1];
  return worker === undefined
    ? `a device of the identity ${identity}, which this day does not have`
    : `${worker}'s wearable`;
}
