// Moves of moments: by little and by much, to just after each labelled step, and to places spread over the day; within what the
// reader takes, so that no span ends before it begins and no deadline lies beyond the day.
import { parseClock, sinceStart } from '../../../src/scenario/fields/clock.js';
import { parseDuration } from '../../../src/scenario/fields/duration.js';
import type { Leaf } from './leaves.js';
import { clockText, type ScenarioStage } from './stage.js';
import { entryOf, type Tree } from './tree.js';

const STEPS_MS = [1, 1_000, 60_000, 600_000, 3_600_000];
const AFTER_LABEL_MS = 1_000;
/** Times are also moved to this many places spread over the day. */
const PLACES = 24;

export function momentsAbout(text: string, expectation: Tree, leaf: Leaf, stage: ScenarioStage): readonly string[] {
  const ms = msOf(text, stage);
  const within = parseDuration(String(entryOf(expectation, 'within')));
  const key = leaf.path.at(-1);
  const otherEnd = (end: string, otherwise: number) =>
    msOf(String(entryOf(expectation, end) ?? ''), stage) ?? otherwise;
  const firstMs = key === 'until' ? otherEnd('from', 0) + 1 : 0;
  const lastMs =
    key === 'from' ? otherEnd('until', stage.untilMs) - 1 : stage.untilMs - (key === 'after' ? (within ?? 0) : 0);
  if (ms === undefined) throw new Error(`nothing begins at "${text}"`);
  return STEPS_MS.flatMap((step) => [ms - step, ms + step])
    .concat(
      firstMs,
      lastMs,
      [...stage.labels.values()].map((label) => label + AFTER_LABEL_MS),
    )
    .concat(Array.from({ length: PLACES }, (_, place) => Math.round((stage.untilMs * place) / PLACES)))
    .filter((value) => value >= firstMs && value <= lastMs && value !== ms)
    .map((value) => clockText(value, stage));
}

function msOf(text: string, { fromMs, untilMs, labels }: ScenarioStage): number | undefined {
  const clock = parseClock(text);
  if (text === 'end') return untilMs;
  return clock === null ? labels.get(text) : sinceStart(clock, fromMs);
}
