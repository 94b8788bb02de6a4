import { describe, expect, it } from 'vitest';
import type { BreachVerdict, Verdict } from '../../src/judge/verdict.js';
import { breachText, commandFor, verdictText } from '../../src/judge/verdict-text.js';
import { DayTrace, MINUTE, SEVEN_MS } from './day.js';

const judged = { file: 'scenarios/day.yaml', row: 'away=5m loss=0/1', whatIf: null, fromMs: SEVEN_MS };
const SOURCE = 'title: A day\nexpect:\n\t- {at: 07:40, points: Edda, is: 19.2}\n';

function around() {
  const day = new DayTrace();
  day.alert(10 * MINUTE, 'notice');
  return day.events.slice(-1);
}

describe('commandFor', () => {
  it('shows half a minute before and after, by times of day', () => {
    expect(commandFor({ ...judged, row: '' }, 40 * MINUTE + 999)).toBe(
      'npx counterproof trace scenarios/day.yaml --from 07:39:30 --until 07:40:30',
    );
    expect(commandFor({ ...judged, row: '' }, 0)).toContain('--from 07:00:00 ');
    expect(commandFor({ ...judged, row: '' }, 40 * MINUTE, 10 * MINUTE)).toContain('--from 07:09:30 --until 07:40:30');
    expect(commandFor({ ...judged, row: '' }, 17 * 60 * MINUTE)).toContain("--from 23:59:30 --until 'day 2 00:00:30'");
  });

  it('names row and what-if, quoted for a shell', () => {
    expect(commandFor({ ...judged, whatIf: "the crew's rota" }, 0)).toContain(
      "--row 'away=5m loss=0/1' --what-if 'the crew'\\''s rota'",
    );
  });
});

describe('verdictText', () => {
  const verdict: Verdict = {
    held: false,
    place: { file: 'scenarios/day.yaml', line: 3, column: 4 },
    text: '{at: 07:40, points: Edda, is: 19.2}',
    expected: 'at 07:40:00: the points of Edda exactly 19.2 points',
    seen: '19 points (3420000000 u) since 07:38:12',
    atMs: 40 * MINUTE,
    sinceMs: 10 * MINUTE,
    around: around(),
  };

  it('shows the line with a caret, what was expected and seen, the events around it, and the command', () => {
    expect(verdictText(verdict, { ...judged, row: '' }, SOURCE)).toBe(
      `scenarios/day.yaml:3:4: does not hold
  3 | \t- {at: 07:40, points: Edda, is: 19.2}
    | \t  ^
  expected  at 07:40:00: the points of Edda exactly 19.2 points
  seen      19 points (3420000000 u) since 07:38:12
  around it #6 07:10:00 Edda shown.alert again=0 level=notice
  again     npx counterproof trace scenarios/day.yaml --from 07:09:30 --until 07:40:30
`,
    );
  });

  it('names the row and the what-if, where there are more runs than one', () => {
    const heading = (row: string, whatIf: string | null) =>
      verdictText(verdict, { ...judged, row, whatIf }, '').split('\n')[0];
    expect(heading('', null)).toBe('scenarios/day.yaml:3:4: does not hold');
    expect(heading('', 'a rota')).toBe('scenarios/day.yaml:3:4: does not hold (what if: a rota)');
    expect(heading('away=5m', 'a rota')).toBe('scenarios/day.yaml:3:4: does not hold (away=5m, what if: a rota)');
  });

  it('leaves the line out where the source does not have it', () => {
    expect(
      verdictText({ ...verdict, held: true }, judged, '')
        .split('\n')
        .slice(0, 2),
    ).toEqual([
      'scenarios/day.yaml:3:4: holds (away=5m loss=0/1)',
      '  expected  at 07:40:00: the points of Edda exactly 19.2 points',
    ]);
  });
});

describe('breachText', () => {
  it('names the invariant, what it guards, and what is wrong', () => {
    const breach: BreachVerdict = {
      invariant: 'a ledger never shrinks',
      guards: ['ACC-2', 'TAL-3'],
      sort: 'wrong',
      text: 'wrong: it fell',
      n: 6,
      atMs: 10 * MINUTE,
      around: around(),
    };
    expect(breachText(breach, judged)).toBe(
      `scenarios/day.yaml: wrong at 07:10:00 (away=5m loss=0/1)
  expected  a ledger never shrinks (ACC-2, TAL-3)
  seen      wrong: it fell
  around it #6 07:10:00 Edda shown.alert again=0 level=notice
  again     npx counterproof trace scenarios/day.yaml --row 'away=5m loss=0/1' --from 07:09:30 --until 07:10:30
`,
    );
  });
});
