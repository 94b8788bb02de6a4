// All verbs of the language, in the order in which they are listed to a person.
import type { DayVerb } from '../day.js';
import { air } from './air.js';
import { attack } from './attack.js';
import { carry } from './carry.js';
import { cell } from './cell.js';
import { clock } from './clock.js';
import { close } from './close.js';
import { cut } from './cut.js';
import { exchange } from './exchange.js';
import { flash } from './flash.js';
import { leave } from './leave.js';
import { pair } from './pair.js';
import { press } from './press.js';
import { readout } from './readout.js';
import { comeBack } from './return.js';
import { run } from './run.js';
import { sensor } from './sensor.js';
import { set } from './set.js';
import { tap } from './tap.js';
import { touch } from './touch.js';
import { turn } from './turn.js';
import type { Verb } from './verb.js';
import { work } from './work.js';

/** One verb for each kind of event. */
export const EVENT_VERBS: Readonly<Record<DayVerb, Verb>> = {
  run,
  set,
  pair,
  press,
  turn,
  touch,
  tap,
  close,
  readout,
  carry,
  leave,
  return: comeBack,
  air,
  sensor,
  cut,
  cell,
  exchange,
  clock,
  flash,
  attack,
};

export const VERBS: ReadonlyMap<string, Verb> = new Map(
  [work, ...Object.values(EVENT_VERBS)].map((entry) => [entry.word, entry]),
);
