// A wearable on a fake board: it is tapped, touched and spoken to; what it shows, calls and sends is written down.
import type { FlashState } from '../../sim/flash/flash.js';
import { tableEngine } from '../../src/bench/engines/table.js';
import type { AlertLevel } from '../../src/link/messages.js';
import type { LedgerEntry, Recovered } from '../../src/port/inner.js';
import type { Level } from '../../src/wearable/levels.js';
import type { WearableBoard } from '../../src/wearable/parts.js';
import type { Shift } from '../../src/wearable/state.js';
import { Wearable, type WearableInput } from '../../src/wearable/wearable.js';
import { DeviceRig } from './device-rig.js';
import { LEVELS } from './levels.js';
import type { Site } from './site.js';

export interface Call {
  readonly atMs: number;
  readonly level: AlertLevel;
  readonly again: number;
}

export class WearableRig extends DeviceRig<Wearable> {
  readonly alerts: Call[] = [];
  readonly marks: { readonly atMs: number; readonly counter: number; readonly on: boolean }[] = [];
  /** Every change of the ledger, with the total of its shift. */
  readonly ledger: (LedgerEntry & { readonly total: number })[] = [];
  /** "opened 1", "closed 1", "long 1" …, and when. */
  readonly shifts: { readonly atMs: number; readonly what: string }[] = [];
  /** Keys kept, and what each start told of the newest shift. */
  readonly paired: { readonly counter: number; readonly session: number; readonly shift: number }[] = [];
  readonly resumed: { readonly shift: number; readonly open: boolean; readonly dose: number }[] = [];
  readonly incomplete: { readonly shift: number; readonly counter: number; readonly why: string }[] = [];

  constructor(
    site: Site,
    id: number,
    private readonly levels: readonly Level[] = LEVELS,
    flash?: FlashState,
  ) {
    super(site, id, flash);
    this.powerUp();
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

  /** The shifts that are kept, oldest first. */
  observe(): readonly Shift[] {
    return this.device.observe();
  }

  /** Dose of the shift that is shown. */
  get dose(): number {
    return this.observe().at(-1)?.dose ?? 0;
  }

  protected start(cellMv: number): Wearable {
    const wearable = new Wearable(this.wearableBoard(), tableEngine);
    wearable.boot(this.id, this.levels, cellMv);
    return wearable;
  }

  private wearableBoard(): WearableBoard {
    const { site } = this;
    const inner = {
      state: this.live((region: string, state: string) => this.states.set(region, state)),
      resumed: this.live((shift: number, open: boolean, dose: number) => this.resumed.push({ shift, open, dose })),
      paired: this.live((counter: number, session: number, shift: number) =>
        this.paired.push({ counter, session, shift }),
      ),
      recovered: this.live((found: Recovered) => this.recovered.push(found)),
      ledger: this.live(({ counter, session, shift, ...sums }: Readonly<LedgerEntry>, total: number) => {
        const { dose, triggerWindows, unratedWindows } = sums;
        this.ledger.push({ counter, session, shift, dose, triggerWindows, unratedWindows, total });
      }),
      shift: this.live((shift: number, what: string) =>
        this.shifts.push({ atMs: site.nowMs, what: `${what} ${shift}` }),
      ),
      incomplete: this.live((shift: number, counter: number, why: string) =>
        this.incomplete.push({ shift, counter, why }),
      ),
    };
    return {
      ...this.board(),
      inner,
      alert: this.live((level: AlertLevel, again: number) => this.alerts.push({ atMs: site.nowMs, level, again })),
      mark: this.live((counter: number, _: 'stale', on: boolean) => this.marks.push({ atMs: site.nowMs, counter, on })),
    };
  }

  private input(input: WearableInput): void {
    this.act((wearable) => wearable.input(input));
  }
}
