// Small charts for tests of the engines, and a chart's surroundings that write down what happens.
import { type AnyStateMachine, createMachine } from 'xstate';
import type { Chart, ChartEvent } from '../../../src/port/engine.js';

type Config = Parameters<typeof createMachine>[0];

/** A machine with one region, "part", of these states. */
export function machineOf(states: object, initial = 'idle'): AnyStateMachine {
  return createMachine({ id: 'test', type: 'parallel', states: { part: { initial, states } } } as Config);
}

export interface Seen {
  readonly chart: Chart;
  /** Effects as "name(event)", states as "region=state", in the order in which they came. */
  readonly log: string[];
}

/** Guards and effects by name; those effects that are not given do nothing but stand in the log. */
export function chartOf(
  machine: AnyStateMachine,
  names: readonly string[] = [],
  effects: Readonly<Record<string, (event: ChartEvent) => void>> = {},
  guards: Chart['guards'] = {},
): Seen {
  const log: string[] = [];
  const logged = (name: string) => (event: ChartEvent) => {
    log.push(`${name}(${event.type})`);
    effects[name]?.(event);
  };
  const chart: Chart = {
    machine,
    guards,
    effects: Object.fromEntries([...names, ...Object.keys(effects)].map((name) => [name, logged(name)])),
    onState: (region, state) => log.push(`${region}=${state}`),
  };
  return { chart, log };
}
