// How a device changes its journal: whenever an erase has begun by it, the device's chart is told, so that it waits for the end.
import type { Flash } from '../port/flash.js';
import type { Journal } from './journal.js';

/** What both devices have. */
interface Keeper {
  readonly journal: Journal;
  readonly board: { readonly flash: Flash };
  readonly send: (event: { readonly type: 'ERASING' }) => void;
}

/** True where the journal holds it; otherwise it waits there, for the end of an erase or for a better cell, or is not taken. */
export function put(keeper: Keeper, type: number, slot: number, value: Uint8Array): boolean {
  const kept = keeper.journal.put(type, slot, value) === 'kept';
  noteErasing(keeper);
  return kept;
}

export function drop(keeper: Keeper, type: number, slot: number): void {
  keeper.journal.drop(type, slot);
  noteErasing(keeper);
}

/** Writes down what waited. True where nothing waits any longer. */
export function settle(keeper: Keeper): boolean {
  const settled = keeper.journal.settle() === 'kept';
  noteErasing(keeper);
  return settled;
}

/** It hears of an erase as often as a record is written meanwhile. */
function noteErasing({ board, send }: Keeper): void {
  if (board.flash.busy()) send({ type: 'ERASING' });
}
