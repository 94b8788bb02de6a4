// A wearable on a fake board: it is tapped, touched and spoken to; what it shows, calls and sends is written down.
import { tableEngine } from '../../src/bench/engines/table.js';
import type { AlertLevel, Message } from '../../src/link/messages.js';
import type { LedgerEntry } from '../../src/port/inner.js';
import type { Display } from '../../src/port/port.js';
import type { Level } from '../../src/wearable/levels.js';
import type { Shift } from '../../src/wearable/state.js';
import { Wearable, type WearableInput } from '../../src/wearable/wearable.js';
import type { ShownDisplay } from './counter-rig.js';
import { drawsOf } from './draws.js';
import { LEVELS } from './levels.js';
import { type Frames, type Site, sentBy } from './site.js';

export interface Call {
  readonly atMs: number;
  readonly level: AlertLevel;
  readonly again: number;
}

export class WearableRig {
  readonly shown: ShownDisplay[] = [];
  readonly alerts: Call[] = [];
  readonly marks: { readonly atMs: number; readonly counter: number; readonly on: boolean }[] = [];
  /** State of every region of the chart, as last told. */
  readonly states = new Map<string, string>();
  readonly refused: { readonly message: Message; readonly from: number; readonly reason: string }[] = [];
  /** Every change of the ledger, with the total of its shift. */
  readonly ledger: (LedgerEntry & { readonly total: number })[] = [];
  /** "opened 1", "closed 1", "long 1" …, and when. */
  readonly shifts: { readonly atMs: number; readonly what: string }[] = [];
  readonly incomplete: { readonly shift: number; readonly counter: number; readonly why: string }[] = [];
  private readonly wearable: Wearable;

  constructor(
    readonly site: Site,
    readonly id: number,
    levels: readonly Level[] = LEVELS,
  ) {
    const board = {
      show: (display: Display) => this.shown.push({ ...display, atMs: site.nowMs }),
      send: (message: Message, to: number) => site.send(id, to, message),
      refused: (message: Message, from: number, reason: string) => this.refused.push({ message, from, reason }),
      random: drawsOf(id),
      alert: (level: AlertLevel, again: number) => this.alerts.push({ atMs: site.nowMs, level, again }),
      mark: (counter: number, _: 'stale', on: boolean) => this.marks.push({ atMs: site.nowMs, counter, on }),
    };
    const inner = {
      state: (region: string, state: string) => this.states.set(region, state),
      ledger: (entry: Readonly<LedgerEntry>, total: number) => this.ledger.push({ ...entry, total }),
      shift: (shift: number, what: string) => this.shifts.push({ atMs: site.nowMs, what: `${what} ${shift}` }),
      incomplete: (shift: number, counter: number, why: string) => this.incomplete.push({ shift, counter, why }),
    };
    this.wearable = new Wearable(board, inner, tableEngine);
    this.wearable.boot(id, levels);
    site.place(id, this.wearable);
  }

  /** What it shows now. */
  get display(): ShownDisplay {
    return this.shown[this.shown.length - 1]!;
  }

  tap(): void {
    this.input({ input: 'tap' });
  }

  /** The surface is held for as long as it takes to close the shift. */
  close(): void {
    this.input({ input: 'close' });
  }

  readout(): void {
    this.input({ input: 'readout' });
  }

  touch(peer: number): void {
    this.input({ input: 'touch', peer });
  }

  hear(message: Message, from: number): void {
    this.site.act(this.id, () => this.wearable.receive(message, from));
  }

  /** The shifts that are kept, oldest first. */
  observe(): readonly Shift[] {
    return this.wearable.observe();
  }

  /** Dose of the shift that is shown. */
  get dose(): number {
    return this.observe().at(-1)?.dose ?? 0;
  }

  sent<F extends Message['frame']>(frame: F): Frames<F>[] {
    return sentBy(this.site, this.id, frame);
  }

  private input(input: WearableInput): void {
    this.site.act(this.id, () => this.wearable.input(input));
  }
}
