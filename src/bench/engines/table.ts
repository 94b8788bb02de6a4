// Runs a device's statechart from the transition table of its machine. Timers are plain data on a virtual clock.
import type { AnyStateMachine } from 'xstate';
import { type ClockState, type Deadline, newClock, VirtualClock } from '../../../sim/kernel/clock.js';
import type { Chart, ChartEvent, Engine } from '../../port/engine.js';
import { type Configuration, type Row, TransitionTable } from './transition-table.js';

/** Events that one event may set off. */
const MAX_FOLLOWING = 1000;

/** One table a machine serves all devices of all days. */
const tables = new WeakMap<AnyStateMachine, TransitionTable>();

function tableOf(machine: AnyStateMachine): TransitionTable {
  const known = tables.get(machine);
  if (known !== undefined) return known;
  const made = new TransitionTable(machine);
  tables.set(machine, made);
  return made;
}

export function tableEngine(chart: Chart): Engine {
  return new TableEngine(chart);
}

/** Deadlines of the chart by their slots; they are handles into the clock beside them. */
interface Timers {
  readonly clock: ClockState<ChartEvent>;
  readonly deadlines: (Deadline<ChartEvent> | undefined)[];
}

class TableEngine implements Engine {
  private readonly table: TransitionTable;
  private readonly clock: VirtualClock<ChartEvent>;
  private readonly waiting: ChartEvent[] = [];
  private configuration: Configuration;
  private busy = false;
  /** An effect has thrown: the device is neither here nor there, and must not go on. */
  private failed = false;

  constructor(
    private readonly chart: Chart,
    private readonly timers: Timers = { clock: newClock(), deadlines: [] },
  ) {
    this.table = tableOf(chart.machine);
    this.configuration = this.table.initial.next;
    this.clock = new VirtualClock(timers.clock);
  }

  start(): void {
    this.work(this.table.initial, { type: 'xstate.init' });
  }

  send(event: ChartEvent): void {
    if (this.failed) throw new Error(`an engine of ${this.chart.machine.id} has failed and takes no more events`);
    if (this.busy) this.waiting.push(event);
    else this.work(this.rowFor(event), event);
  }

  post(delayMs: number, event: ChartEvent): void {
    this.clock.arm(delayMs, event);
  }

  state(region: string): string {
    return this.configuration.regions.get(region) ?? '';
  }

  get nowMs(): number {
    return this.clock.nowMs;
  }

  nextMs(): number {
    return this.clock.nextMs();
  }

  moveTo(toMs: number): void {
    this.clock.moveTo(toMs);
  }

  runTo(toMs: number): void {
    this.clock.runTo(toMs, (event) => this.send(event));
  }

  inside(): readonly [string, readonly number[]] {
    return [this.configuration.name, this.clock.pendingMs()];
  }

  fork(chart: Chart): Engine {
    if (this.busy) throw new Error('an engine cannot be copied in the middle of an event');
    const copy = new TableEngine(chart, structuredClone(this.timers));
    copy.configuration = this.configuration;
    return copy;
  }

  /** Carries out a row, then what its effects have sent. */
  private work(row: Row, event: ChartEvent): void {
    this.busy = true;
    try {
      this.carryOut(row, event);
      for (let following = 0; this.waiting.length > 0; following++) {
        if (following > MAX_FOLLOWING) throw new Error(`${event.type} sets off events without end`);
        const next = this.waiting.shift()!;
        this.carryOut(this.rowFor(next), next);
      }
    } catch (error) {
      this.failed = true;
      throw error;
    }
    this.busy = false;
  }

  private rowFor(event: ChartEvent): Row {
    const cell = this.table.cell(this.configuration, event.type);
    let bits = 0;
    for (let index = 0; index < cell.guards.length; index++) {
      const name = cell.guards[index]!;
      const guard = this.chart.guards[name];
      if (guard === undefined) throw new Error(`${this.chart.machine.id} has no guard ${name}`);
      if (guard(event)) bits |= 1 << index;
    }
    return cell.rows[bits] ?? this.table.fill(this.configuration, event.type, cell, bits);
  }

  private carryOut(row: Row, event: ChartEvent): void {
    this.configuration = row.next;
    for (const step of row.steps) {
      switch (step.do) {
        case 'effect':
          this.effect(step.name, event);
          break;
        case 'arm':
          this.timers.deadlines[step.slot] = this.clock.arm(step.delayMs, step.event);
          break;
        case 'cancel':
          this.cancel(step.slot);
      }
    }
    for (const [region, state] of row.changes) this.chart.onState(region, state);
  }

  private effect(name: string, event: ChartEvent): void {
    const effect = this.chart.effects[name];
    if (effect === undefined) throw new Error(`${this.chart.machine.id} has no effect ${name}`);
    effect(event);
  }

  private cancel(slot: number): void {
    const deadline = this.timers.deadlines[slot];
    if (deadline !== undefined) this.clock.cancel(deadline);
  }
}
