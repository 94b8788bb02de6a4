// All that an expectation can be about, in the order in which it is listed to a person.
import { display, state } from './conditions.js';
import { alert, DEED_SUBJECTS, event, message } from './happenings.js';
import {
  dose,
  points,
  powerLosses,
  refusedFrames,
  retiredPages,
  secondNumber,
  shortBursts,
  tornRecords,
  triggerTime,
  unclaimedDose,
  unratedTime,
} from './quantities.js';
import type { Subject } from './subject.js';

const ALL: readonly Subject[] = [
  points,
  dose,
  triggerTime,
  unratedTime,
  unclaimedDose,
  shortBursts,
  secondNumber,
  powerLosses,
  tornRecords,
  retiredPages,
  refusedFrames,
  display,
  state,
  alert,
  message,
  event,
  ...DEED_SUBJECTS,
];

export const SUBJECTS: ReadonlyMap<string, Subject> = new Map(ALL.map((each) => [each.word, each]));

/** Every subject's word and every key that goes with one. */
export const SUBJECT_KEYS: readonly string[] = ALL.flatMap(({ word, fields }) => [word, ...Object.keys(fields)]);
