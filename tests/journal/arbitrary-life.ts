// Lives of a device, as arrays of plain events that shrink well: changes, erases that end, power that fails, pages that go bad.
import fc from 'fast-check';
import { newFlash, SimFlash } from '../../sim/flash/flash.js';
import { RandomStream } from '../../sim/kernel/random.js';
import { Journal } from '../../src/journal/journal.js';
import { contentsOf, firstKept, Model } from './model.js';

export type LifeEvent =
  | { readonly do: 'put'; readonly slot: number; readonly length: number; readonly fill: number }
  | { readonly do: 'drop'; readonly slot: number }
  /** Many small changes, with time between them. */
  | { readonly do: 'work'; readonly changes: number }
  | { readonly do: 'wait' }
  | { readonly do: 'hold'; readonly on: boolean }
  /** Power will fail that many steps of the flash later. */
  | { readonly do: 'cut'; readonly steps: number }
  | { readonly do: 'fail' }
  /** The device starts anew, and power did not fail. */
  | { readonly do: 'restart' }
  | { readonly do: 'spoil'; readonly page: number }
  | { readonly do: 'fork' };

const SLOT = fc.nat(31);

const GENTLE: fc.Arbitrary<LifeEvent> = fc.oneof(
  fc.record({ do: fc.constant('put'), slot: SLOT, length: fc.nat(248), fill: fc.nat(255) }),
  fc.record({ do: fc.constant('drop'), slot: SLOT }),
  fc.record({ do: fc.constant('work'), changes: fc.integer({ min: 1, max: 300 }) }),
  fc.constant({ do: 'wait' } as const),
  fc.record({ do: fc.constant('hold'), on: fc.boolean() }),
  fc.record({ do: fc.constant('cut'), steps: fc.nat(1200) }),
  fc.record({ do: fc.constant('cut'), steps: fc.nat(40) }),
  fc.constant({ do: 'fail' } as const),
  fc.constant({ do: 'restart' } as const),
  fc.constant({ do: 'fork' } as const),
);
const SPOIL: fc.Arbitrary<LifeEvent> = fc.record({ do: fc.constant('spoil'), page: fc.nat(15) });

export const LIFE = fc.array(GENTLE, { maxLength: 60 });
export const LIFE_WITH_BAD_PAGES = fc.array(
  fc.oneof({ arbitrary: GENTLE, weight: 2 }, { arbitrary: SPOIL, weight: 1 }),
  { size: 'max', maxLength: 60 },
);

/** What is before a life begins, so that it may begin anywhere in the ring, with little or much to be moved. */
export const EARLIER = fc.record({ large: fc.nat(32), length: fc.nat(248), changes: fc.nat(9000) });
export type Earlier = typeof EARLIER extends fc.Arbitrary<infer T> ? T : never;

/** A device with its flash, held to the model after each event. Every broken law throws. */
export class Life {
  flash: SimFlash;
  journal: Journal;
  model: Model;
  cuts = 0;
  private worked = 0;

  constructor(seed: number, { large, length, changes }: Earlier) {
    this.flash = new SimFlash(newFlash(RandomStream.named(seed, 'life')));
    this.journal = Journal.open(this.flash);
    for (let slot = 0; slot < large; slot++) this.journal.put(1, slot, new Uint8Array(length).fill(slot));
    for (let made = 0; made < changes; made++) {
      this.journal.put(2, 0, this.nextValue());
      this.flash.finishErase();
    }
    this.journal.settle();
    this.model = new Model(contentsOf(this.journal));
  }

  /** Lets something happen, then holds what the device holds, and what it would recover, to the model. */
  happen(event: LifeEvent): void {
    this.apply(event);
    if (!this.flash.powered) this.reboot();
    if (!this.model.follow(this.journal)) throw new Error('holds what it must not');
    if (firstKept(contentsOf(Journal.open(this.flash.fork())), this.model) !== 0)
      throw new Error('would recover something else');
  }

  /** Nothing goes wrong any more: whatever waits is kept. */
  calm(): void {
    this.flash.failAfter(Number.MAX_SAFE_INTEGER);
    this.journal.hold(false);
    for (let wait = 0; wait < 40 && this.flash.busy(); wait++) this.wait();
    this.happen({ do: 'wait' });
  }

  private apply(event: LifeEvent): void {
    switch (event.do) {
      case 'put':
        this.change(1, event.slot, new Uint8Array(event.length).fill(event.fill));
        return;
      case 'drop':
        this.change(1, event.slot, null);
        return;
      case 'work':
        for (let made = 0; made < event.changes && this.flash.powered; made++) {
          this.change(2, 0, this.nextValue());
          if (made % 4 === 3) this.wait();
        }
        return;
      case 'wait':
        this.wait();
        return;
      case 'hold':
        this.journal.hold(event.on);
        return;
      case 'cut':
        this.flash.failAfter(event.steps);
        return;
      case 'fail':
        this.flash.failNow();
        return;
      case 'restart':
        this.open();
        return;
      case 'spoil':
        this.flash.spoil(event.page);
        return;
      case 'fork':
        this.fork();
        return;
    }
  }

  private nextValue(): Uint8Array {
    this.worked += 1;
    const value = new Uint8Array(20);
    value.set([this.worked >> 16, this.worked >> 8, this.worked]);
    return value;
  }

  private change(type: number, slot: number, value: Uint8Array | null): void {
    this.model.change(this.journal, { type, slot, value });
  }

  private wait(): void {
    this.flash.finishErase();
    this.journal.settle();
    if (!this.model.follow(this.journal)) throw new Error('holds what it must not once it has settled');
  }

  private reboot(): void {
    this.flash.powerBack();
    this.cuts += 1;
    this.open();
  }

  /** What waited is gone with the RAM, but for what was just being written. */
  private open(): void {
    this.journal = Journal.open(this.flash);
    const contents = contentsOf(this.journal);
    if (firstKept(contents, this.model) === null) throw new Error('recovers what it must not');
    this.model = new Model(contents);
  }

  /** Goes on with a copy, having made sure that what happens to one does not show in the other. */
  private fork(): void {
    const inside = JSON.stringify(this.journal.inside());
    const flash = this.flash.fork();
    const journal = this.journal.fork(flash);
    if (JSON.stringify(journal.inside()) !== inside) throw new Error('a fork is not as what it comes from');
    this.journal.put(1, 0, Uint8Array.of(1, 2, 3));
    this.journal.put(3, 0, Uint8Array.of(4));
    if (JSON.stringify(journal.inside()) !== inside) throw new Error('a fork changes with what it comes from');
    this.flash = flash;
    this.journal = journal;
  }
}
