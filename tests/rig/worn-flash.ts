// A flash that has been in use: a device that is put on it soon fills its page, opens the next one and erases another.
import { type FlashState, newFlash, SimFlash } from '../../sim/flash/flash.js';
import { RandomStream } from '../../sim/kernel/random.js';
import { Journal } from '../../src/journal/journal.js';

/** A type of records that no device has. */
const FILLER = 254;
const LONG = 200;
const SHORT = 4;
/** Of a record of SHORT bytes in flash. */
const SHORT_RECORD_BYTES = 12;

/** An erase will begin with the record, or the one after it, that is kept on it bytesLeft bytes from now; bytesLeft: whole words. */
export function wornFlash(bytesLeft: number): FlashState {
  const flash = new SimFlash(newFlash(RandomStream.named(bytesLeft, 'worn')));
  const journal = Journal.open(flash);
  while (!flash.busy()) fill(journal, flash, LONG);
  flash.finishErase();
  journal.settle();
  while (!wouldErase(journal, flash, LONG, 2 + Math.floor(bytesLeft / LONG))) fill(journal, flash, LONG);
  fill(journal, flash, SHORT + (bytesLeft % SHORT_RECORD_BYTES));
  const more = Math.ceil(bytesLeft / SHORT_RECORD_BYTES);
  while (!wouldErase(journal, flash, SHORT, more + 1)) fill(journal, flash, SHORT);
  return flash.state();
}

function wouldErase(journal: Journal, flash: SimFlash, length: number, records: number): boolean {
  const trialFlash = flash.fork();
  const trial = journal.fork(trialFlash);
  for (let made = 0; made < records && !trialFlash.busy(); made++) fill(trial, trialFlash, length);
  return trialFlash.busy();
}

/** Each is another value than the last, or nothing would be written. */
function fill(journal: Journal, flash: SimFlash, length: number): void {
  const value = new Uint8Array(length);
  new DataView(value.buffer).setUint32(0, flash.steps);
  if (journal.put(FILLER, 0, value) !== 'kept') throw new Error('the filler was not kept');
}
