// How a device stands, to compare before and after a frame that may change nothing.
import type { Rig } from './target.js';

/** All that decides how a device goes on, but for the count of wrong tags, and all that has come out of it. */
export function standingOf(rig: Rig): string {
  const [{ badTags: _, ...state }, ...rest] = rig.inside() as [{ badTags: object }, ...object[]];
  const { site, shown, records, flash } = rig;
  return JSON.stringify([state, rest, site.frames.length, shown.length, records.length, flash.steps]);
}

/** Where two standings begin to differ. */
export function differenceOf(before: string, after: string): string {
  let at = 0;
  while (at < before.length && before[at] === after[at]) at += 1;
  const from = Math.max(0, at - CONTEXT);
  return `${before.slice(from, at + CONTEXT)} is ${after.slice(from, at + CONTEXT)}`;
}

const CONTEXT = 60;
