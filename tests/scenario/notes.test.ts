import { describe, expect, it } from 'vitest';
import { messagesOf, read, readRun, scenarioText } from './reading.js';

const DAY = '[{at: 09:00, tap: Edda, for: 1s, as: tea}]';

describe('notes', () => {
  it('stand at a time, at the end or at a step, in the order of their times', () => {
    const notes = '[{at: end, say: Done.}, {at: tea, ask: Why now?, say: "Tea."}, {at: 07:30, say: Look.}]';
    expect(readRun(scenarioText({ day: DAY, notes })).notes).toEqual([
      { atMs: 2_400_000, ask: null, say: 'Look.' },
      { atMs: 7_800_000, ask: 'Why now?', say: 'Tea.' },
      { atMs: 33_000_000, ask: null, say: 'Done.' },
    ]);
  });

  it('move with a step, and go with it', () => {
    const notes = '[{at: tea, say: Tea.}]';
    const { whatIfRuns } = read(
      scenarioText({ day: DAY, notes, 'what-if': '{later: [{shift: tea, by: 1h}], none: [{drop: tea}]}' }),
    );
    expect(whatIfRuns.map((run) => run.notes.map(({ atMs }) => atMs))).toEqual([[11_400_000], []]);
  });

  it.each([
    ['{at: 07:30}', ['a note needs "say"']],
    ['{at: 17:30, say: x}', ['this lies outside the day']],
    ['{at: te, say: x}', ['unknown label "te" → tea']],
    ['{at: 7:30, say: x}', ['"7:30" is no time']],
    ['{at: 07:30, say: "\\e[31m"}', ['this cannot be said']],
    ['{at: 07:30, say: 12}', ['"12" is no text to YAML']],
    ['{at: 07:30, say: x, aks: y}', ['a note has no "aks" → ask']],
  ])('%s is refused', (note, messages) => {
    expect(messagesOf({ day: DAY, notes: `[${note}]` })).toEqual(messages);
  });
});
