// Runs a device's statechart from a table that is filled lazily from XState's own pure transition(): one row for each
// configuration, event type and outcome of the guards that matter. A row holds the next configuration and what is to be done,
// as data. The same decisions as the actor's, many times faster; and the rows filled are the transitions covered.
//
// It asks of the charts: no context, no eventless transitions, no immediate raise, no invoke or spawn, guards and actions by
// name only (see plain-chart.ts). What it meets beside that it refuses loudly.
import { type AnyMachineSnapshot, type AnyStateMachine, initialTransition, transition } from 'xstate';
import type { ChartEvent } from '../../port/engine.js';
import { requirePlainChart } from './plain-chart.js';
import { regionsOf } from './regions.js';

/** One thing to do, in the order in which XState would do it. A deadline has a slot of its own among those of the machine. */
export type Step =
  | { readonly do: 'effect'; readonly name: string }
  | { readonly do: 'arm'; readonly slot: number; readonly event: ChartEvent; readonly delayMs: number }
  | { readonly do: 'cancel'; readonly slot: number };

export interface Row {
  readonly next: Configuration;
  readonly steps: readonly Step[];
  /** Regions whose state is another, with that state. */
  readonly changes: readonly (readonly [region: string, state: string])[];
}

interface Cell {
  /** The guards that may matter to this event. */
  readonly guards: readonly string[];
  /** By the guards' outcomes, the first guard in the lowest bit. */
  readonly rows: (Row | undefined)[];
}

export class Configuration {
  readonly regions: ReadonlyMap<string, string>;
  readonly cells = new Map<string, Cell>();

  constructor(
    readonly snapshot: AnyMachineSnapshot,
    /** The states as text; the same for the same states. */
    readonly name: string,
  ) {
    this.regions = regionsOf(snapshot.value);
  }
}

/** Guards of one event type beyond which a cell would grow out of hand. */
const MAX_GUARDS = 8;

export class TransitionTable {
  private readonly configurations = new Map<string, Configuration>();
  private readonly guardsOfEvent = new Map<string, string[]>();
  private readonly outcome: Record<string, boolean> = {};
  /** Identifiers of deadlines, by slot. */
  private readonly slots: string[] = [];
  private readonly machine: AnyStateMachine;
  readonly initial: Row;

  constructor(machine: AnyStateMachine) {
    requirePlainChart(machine);
    this.collectGuards(machine);
    const guards = [...this.guardsOfEvent.values()].flat();
    this.machine = machine.provide({
      guards: Object.fromEntries(guards.map((name) => [name, () => this.outcome[name] === true])),
    });
    const [snapshot, actions] = initialTransition(this.machine);
    const next = this.configuration(snapshot);
    this.initial = { next, steps: actions.map((action) => this.step(action)), changes: [...next.regions] };
  }

  cell(configuration: Configuration, eventType: string): Cell {
    const known = configuration.cells.get(eventType);
    if (known !== undefined) return known;
    const guards = this.guardsOfEvent.get(eventType);
    if (guards === undefined) throw new Error(`${this.machine.id} knows no event ${eventType}`);
    const cell = { guards, rows: [] };
    configuration.cells.set(eventType, cell);
    return cell;
  }

  /** Works out a row that is not there yet, with the guards' outcomes as bits. */
  fill(configuration: Configuration, eventType: string, cell: Cell, bits: number): Row {
    cell.guards.forEach((name, index) => {
      this.outcome[name] = (bits & (1 << index)) !== 0;
    });
    const [snapshot, actions] = transition(this.machine, configuration.snapshot, { type: eventType });
    const next = this.configuration(snapshot);
    const changes = [...next.regions].filter(([region, state]) => configuration.regions.get(region) !== state);
    const row = { next, steps: actions.map((action) => this.step(action)), changes };
    cell.rows[bits] = row;
    return row;
  }

  private step({ type, params }: Action): Step {
    const { event, id, delay, sendId } = (params ?? {}) as BuiltInParams;
    if (!type.startsWith('xstate.')) return { do: 'effect', name: type };
    if (type === 'xstate.raise' && event !== undefined && id !== undefined && delay !== undefined) {
      return { do: 'arm', slot: this.slot(id), event: { type: event.type }, delayMs: delay };
    }
    if (type === 'xstate.cancel' && sendId !== undefined) return { do: 'cancel', slot: this.slot(sendId) };
    throw new Error(`the table cannot run the action ${type}`);
  }

  private slot(id: string): number {
    const known = this.slots.indexOf(id);
    return known === -1 ? this.slots.push(id) - 1 : known;
  }

  private configuration(snapshot: AnyMachineSnapshot): Configuration {
    const name = [...regionsOf(snapshot.value).values()].join();
    const known = this.configurations.get(name);
    if (known !== undefined) return known;
    const made = new Configuration(snapshot, name);
    this.configurations.set(name, made);
    return made;
  }

  private collectGuards(machine: AnyStateMachine): void {
    const visit = (node: AnyStateMachine['root']): void => {
      for (const [type, transitions] of node.transitions) {
        const names = this.guardsOfEvent.get(type) ?? [];
        for (const { guard } of transitions) {
          if (typeof guard === 'string' && !names.includes(guard)) names.push(guard);
        }
        if (names.length > MAX_GUARDS) throw new Error(`${machine.id}: more than ${MAX_GUARDS} guards on ${type}`);
        this.guardsOfEvent.set(type, names);
      }
      for (const child of Object.values(node.states)) visit(child);
    };
    visit(machine.root);
  }
}

/** What XState says is to be done, as far as the table reads it. */
interface Action {
  readonly type: string;
  readonly params?: unknown;
}

interface BuiltInParams {
  readonly event?: { readonly type: string };
  readonly id?: string;
  readonly delay?: number;
  readonly sendId?: string;
}
