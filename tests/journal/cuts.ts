// Cuts the power at every step of a history of changes: at each byte that is programmed and at each step of each erase. After
// each cut the journal is recovered from what is left and held to the model; then it must still be able to keep a change,
// and, where asked, power is cut again at every step of that too. Forks make it affordable.

import { newFlash, SimFlash } from '../../sim/flash/flash.js';
import { RandomStream } from '../../sim/kernel/random.js';
import { Journal, type Outcome } from '../../src/journal/journal.js';
import { Foretelling, type Operation } from './foretelling.js';
import { type Change, contentsOf, firstKept, Model } from './model.js';

export interface Cuts {
  /** Steps of the history, and cuts made: within it, and again within what came after each of them. */
  steps: number;
  cuts: number;
  cutsAfterCuts: number;
  /** How often each page was erased, and at which steps an erase began. */
  erases: readonly number[];
  eraseSteps: number[];
  /** Cuts after which the change that was being made was kept, or was not. */
  made: number;
  unmade: number;
}

export interface CutOptions {
  /** Steps of the history in which cuts are made; the others are only run. */
  readonly from: number;
  readonly to: number;
  /** Cut again at every step of the first change after each recovery. */
  readonly again: boolean;
}

/** A change that is made after each recovery, to a key that no history uses. */
const AFTERWARDS: Change = { type: 3, slot: 255, value: Uint8Array.of(7, 7, 7, 7, 7) };
/** Opening it once more is looked at after one cut in that many, odd, as records are whole words. */
const OPENED_OF = 5;
/** Erases that a change may have to wait for. */
const PATIENCE = 40;

/** Throws at the first cut that breaks the law, and says which. */
export function cutEverywhere(changes: readonly Change[], { from, to, again }: CutOptions): Cuts {
  const made: Cuts = { steps: 0, cuts: 0, cutsAfterCuts: 0, erases: [], eraseSteps: [], made: 0, unmade: 0 };
  const model = new Model();
  const flash = new SimFlash(newFlash(RandomStream.named(1, 'cuts')));
  const cutting = new Foretelling(flash, (operation) => {
    const before = flash.steps;
    if (operation.erases) made.eraseSteps.push(before);
    for (let cut = 0; cut < operation.steps; cut++) {
      if (before + cut < from || before + cut >= to) continue;
      const after = cutWithin(flash, operation, cut, model, `cut at step ${before + cut}`);
      made.cuts += 1;
      if (after.kept > 0) made.made += 1;
      else made.unmade += 1;
      made.cutsAfterCuts += goOn(after, again);
    }
  });
  const journal = Journal.open(cutting);
  for (const change of changes) {
    if (make(journal, flash, model, change) !== 'kept') throw new Error('a change of the history was not kept');
  }
  return { ...made, steps: flash.steps, erases: flash.erases };
}

/** A device after a cut: what it recovered is as the model. */
interface After {
  readonly flash: SimFlash;
  readonly journal: Journal;
  readonly model: Model;
  readonly about: string;
  /** How many of the changes that were pending were kept. */
  readonly kept: number;
  /** Told of each operation from now on. */
  tell: (operation: Operation) => void;
}

/** Cuts an operation on a copy, recovers, and holds what is left to the model. */
function cutWithin(before: SimFlash, operation: Operation, cut: number, pending: Model, about: string): After {
  const flash = before.fork();
  flash.failAfter(cut);
  operation.on(flash);
  if (flash.powered) throw new Error(`${about}: power did not fail`);
  flash.powerBack();
  const journal = Journal.open(new Foretelling(flash, (next) => after.tell(next)));
  const contents = contentsOf(journal);
  const kept = firstKept(contents, pending);
  if (kept === null) throw new Error(`${about}: ${contents.size} values are recovered, not those that were kept`);
  const after: After = { flash, journal, model: new Model(contents), about, kept, tell: () => {} };
  return after;
}

/** The first change after a recovery is kept, and outlasts being opened once more, looked at after some cuts. How many cuts were made in it. */
function goOn(after: After, cutAgain: boolean): number {
  const { flash, journal, model, about } = after;
  let cuts = 0;
  after.tell = (operation) => {
    for (let cut = 0; cutAgain && cut < operation.steps; cut++) {
      cutWithin(flash, operation, cut, model, `${about}, and again ${cuts} steps later`);
      cuts += 1;
    }
  };
  if (make(journal, flash, model, AFTERWARDS) !== 'kept') throw new Error(`${about}: keeps no more`);
  if (flash.steps % OPENED_OF === 0 && firstKept(contentsOf(Journal.open(flash)), model) !== 0) {
    throw new Error(`${about}: the next change was not kept`);
  }
  return cuts;
}

/** Makes a change and lets erases end until it is kept, and until no page is left to be erased. */
function make(journal: Journal, flash: SimFlash, model: Model, change: Change): Outcome {
  let outcome = model.change(journal, change);
  for (let waited = 0; waited < PATIENCE && flash.busy(); waited++) {
    flash.finishErase();
    outcome = journal.settle();
    if (!model.follow(journal)) throw new Error('the journal holds what it must not');
  }
  return outcome;
}

/**
 * A history of a device that writes about so many bytes: a small value that changes all the time, and larger ones, at most as
 * many as told, that come and go, as sealed sessions do.
 */
export function fillingHistory(bytes: number, large: number): Change[] {
  const random = RandomStream.named(2, 'history');
  const changes: Change[] = [];
  const some = (length: number) => Uint8Array.from({ length }, () => random.within(0, 255));
  for (let written = 0, round = 0; written < bytes; round++) {
    const isLarge = round % 8 === 7;
    const slot = isLarge ? random.within(0, large - 1) : 0;
    const value = isLarge ? (random.chance(1, 3) ? null : some(90)) : some(20);
    changes.push({ type: isLarge ? 2 : 1, slot, value });
    written += value === null ? 8 : value.length + 8;
  }
  return changes;
}
