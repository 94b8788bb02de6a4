// counterproof readout: tables, JSON and CSV of a record, and what is refused instead.
import { mkdtempSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { afterAll, describe, expect, test } from 'vitest';
import { Bench } from '../../../src/bench/bench.js';
import { answerReadout, type ReadoutOptions } from '../../../src/cli/readout/answer.js';
import { pickRun } from '../../../src/cli/scenario/pick-run.js';
import { type ReadoutOutput, readoutOutput } from '../../../src/cli/schemas/readout.js';

const SCENARIOS = new URL('../../../scenarios/', import.meta.url);
const READ_OUT = fileURLToPath(new URL('wearable-read-out.yaml', SCENARIOS));
const LOST = fileURLToPath(new URL('counter-of-a-lost-wearable.yaml', SCENARIOS));
const LOCK_DAY = fileURLToPath(new URL('lock-day.yaml', SCENARIOS));

const CAUTIONS =
  'Counterproof is no measuring instrument and proves no workplace safe. Below the action value there is still risk. ' +
  'Local law and its limit values rule.';

const folder = mkdtempSync(join(tmpdir(), 'counterproof-'));
afterAll(() => rmSync(folder, { recursive: true }));

function write(name: string, content: string | Uint8Array): string {
  const path = join(folder, name);
  writeFileSync(path, content);
  return path;
}

function answer(file: string, options: ReadoutOptions): string {
  const given = answerReadout(file, options);
  if ('refusal' in given) throw new Error(given.refusal);
  return given.answer;
}

function refusal(file: string, options: ReadoutOptions): string {
  const given = answerReadout(file, options);
  return 'refusal' in given ? given.refusal : '';
}

/** The data as printed, which must fit the published schema to the letter. */
function data<R extends ReadoutOutput['record']>(file: string, options: ReadoutOptions, record: R) {
  const output = readoutOutput.parse(JSON.parse(answer(file, { ...options, json: true })));
  if (output.record !== record) throw new Error(`this is the record of a ${output.record}`);
  return output as Extract<ReadoutOutput, { record: R }>;
}

/** The records that a day's trace carries. */
function recordsOf(file: string): Uint8Array[] {
  const picked = pickRun(file, {});
  if ('refusal' in picked) throw new Error(picked.refusal);
  const bench = Bench.open(picked.run.day);
  bench.run();
  return bench.events.flatMap((event) => (event.kind === 'shown.record' ? [Buffer.from(event.bytes, 'hex')] : []));
}

describe('the record of a wearable', () => {
  test('is a table of its shifts and their sessions, with what has to be known below', () => {
    // 16 points are 200 s at 12.0 m/s², 13.5 are 300 s at 9.0: the sums of the scenario's comments. A(8) by hand: sqrt(29.5 / 16).
    expect(answer(READ_OUT, { wearable: 'Edda' }).split('\n')).toEqual([
      "Edda's wearable, read out at 15:00:00: 2 shifts, 3 sessions.",
      '',
      'shift  session    points  A(8)  trigger time    unrated  marks',
      '    1               29.5  1.36     0:13:20.0  0:05:00.0  incomplete',
      '       breaker 1    16.0           0:03:20.0          -',
      '       drill 1      13.5           0:10:00.0  0:05:00.0',
      '    2                8.0  0.71     0:01:40.0          -',
      '       breaker 2     8.0           0:01:40.0          -  not sealed',
      '',
      '- Shift 1 is incomplete: short bursts, power lost. Its sums may be too small.',
      '- Shift 1 has 0:05:00.0 at no magnitude, of which no points were made: it has too few.',
      '- breaker 1: 1 burst too short to be counted; its counter has lost power once in all.',
      '- breaker 2: its counter has lost power once in all.',
      '',
      'A(8) in m/s², times in hours, minutes and seconds. Of each session there is what had reached the',
      'wearable: while it is not sealed, its counter may have more to tell.',
      '',
      CAUTIONS,
      '',
    ]);
  });

  test('is in README.md as it is printed', () => {
    const text = readFileSync(new URL('../../../README.md', import.meta.url), 'utf8');
    const command = '$ npx counterproof readout scenarios/wearable-read-out.yaml --wearable Edda';
    expect(text).toContain(`${command}\n${answer(READ_OUT, { wearable: 'Edda' })}\`\`\``);
  });

  test('is the last one of the day, or the last one by a time', () => {
    const [first] = data(READ_OUT, { wearable: 'Edda', at: '12:00' }, 'wearable').shifts;
    expect(first?.sessions.map(({ tool, points, sealed }) => [tool, points, sealed])).toEqual([
      ['breaker', 16, false],
      ['drill', 9, false],
    ]);
    expect(data(READ_OUT, { wearable: 'Edda', at: '14:59:59' }, 'wearable').readOutAtMs).toBe(5.25 * 3_600_000);
    expect(data(READ_OUT, { wearable: 'Edda' }, 'wearable').readOutAtMs).toBe(8.25 * 3_600_000);
  });

  test('is data that says the same', () => {
    const { shifts, earlier, worker, wearable } = data(READ_OUT, { wearable: 'Edda' }, 'wearable');
    expect({ worker, wearable, earlier }).toEqual({ worker: 'Edda', wearable: 3, earlier: [] });
    expect(shifts).toMatchObject([
      {
        shift: 1,
        dose: 29.5 * 180_000_000,
        points: 29.5,
        a8: Math.sqrt(29.5 / 16),
        triggerMs: 800_000,
        unratedMs: 300_000,
        incomplete: ['short bursts', 'power lost'],
        forgotten: null,
        sessions: [
          { tool: 'breaker', counter: 1, session: 1, shortBursts: 1, powerLosses: 1, sealed: true },
          { tool: 'drill', counter: 2, session: 1, unratedMs: 300_000, sealed: true },
        ],
      },
      { shift: 2, points: 8, incomplete: [] },
    ]);
  });

  test('is CSV with a line a session, each with the columns of its shift', () => {
    const lines = answer(READ_OUT, { wearable: 'Edda', csv: true }).split('\r\n');
    expect(lines.map((line) => line.split(',').length)).toEqual([19, 19, 19, 19, 1]);
    expect(lines[0]).toBe(
      'worker,shift,shift_dose_u,shift_points,shift_a8_m_s2,shift_trigger_s,shift_unrated_s,shift_open,shift_long,' +
        'shift_incomplete,tool,session,dose_u,points,trigger_s,unrated_s,short_bursts,power_losses,sealed',
    );
    expect(lines[2]).toBe(
      'Edda,1,5310000000,29.5,1.36,800.0,300.0,no,no,short bursts; power lost,drill,1,2430000000,13.5,600.0,300.0,0,0,yes',
    );
  });
});

describe('the record of a counter', () => {
  test('is a table of what was never delivered, and of what nobody claimed', () => {
    expect(answer(LOST, { counter: 'breaker' }).split('\n')).toEqual([
      "breaker's counter, read out at 14:00:00: 2 undelivered sessions.",
      '',
      'session  worker       points  trigger time  unrated  marks',
      '      1  Bram           24.0     0:05:00.0        -',
      '      2  Cato           12.0     0:02:30.0        -',
      '         (unclaimed)     4.0     0:00:50.0',
      '',
      'Each sum is of the whole session, what its wearable had heard included: take the larger of the two, never add them.',
      '',
      'Times in hours, minutes and seconds. The counter keeps a session no longer once it was read out: of what',
      'the wearable had not heard, this record is all there is. Unclaimed is what was counted in no session.',
      '',
      CAUTIONS,
      '',
    ]);
  });

  test('is data that says the same', () => {
    const { cautions, ...output } = data(LOST, { counter: 'breaker' }, 'counter');
    expect(cautions).toHaveLength(4);
    expect(cautions[0]).toContain('take the larger of the two, never add them');
    expect(output).toEqual({
      record: 'counter',
      tool: 'breaker',
      counter: 1,
      readOutAtMs: 7.25 * 3_600_000,
      powerLosses: 0,
      unclaimed: { dose: 720_000_000, points: 4, triggerMs: 50_000 },
      undelivered: [
        {
          ...{ worker: 'Bram', wearable: 2, session: 1, dose: 4_320_000_000, points: 24 },
          ...{ triggerMs: 300_000, unratedMs: 0, shortBursts: 0, flags: ['sealed'] },
        },
        {
          ...{ worker: 'Cato', wearable: 3, session: 2, dose: 2_160_000_000, points: 12 },
          ...{ triggerMs: 150_000, unratedMs: 0, shortBursts: 0, flags: ['sealed'] },
        },
      ],
    });
  });

  test('is CSV with a line a session', () => {
    expect(answer(LOST, { counter: 'breaker', csv: true })).toBe(
      'tool,power_losses,unclaimed_dose_u,unclaimed_points,unclaimed_trigger_s,' +
        'worker,session,dose_u,points,trigger_s,unrated_s,short_bursts,flags\r\n' +
        'breaker,0,720000000,4.0,50.0,Bram,1,4320000000,24.0,300.0,0.0,0,sealed\r\n' +
        'breaker,0,720000000,4.0,50.0,Cato,2,2160000000,12.0,150.0,0.0,0,sealed\r\n',
    );
  });
});

describe('a day of somebody whose name is a formula, and whose tool has no magnitude', () => {
  const DAY = `title: Names
regime: eu-2002-44
from: 07:00
until: 09:00
tools: {'=1+1, "saw"': {hand: rotary, magnitude: 5.0}}
workers: {'@Edda': {}}
day:
  - {at: 07:05, pair: '=1+1, "saw"', with: '@Edda'}
  - {at: 07:20, run: '=1+1, "saw"', by: '@Edda', for: 1m}
  - {at: 08:00, readout: '@Edda'}
  - {at: 08:30, readout: '=1+1, "saw"'}
expect: []
`;
  const file = write('names.yaml', DAY);

  test('is written so that no spreadsheet computes it, and the quotes stay within the cell', () => {
    const [, line = ''] = answer(file, { wearable: '@Edda', csv: true }).split('\r\n');
    expect(line).toBe(`'@Edda,1,0,,,60.0,60.0,no,no,,"'=1+1, ""saw""",1,0,,60.0,60.0,0,0,no`);
    const [, counterLine] = answer(file, { counter: '=1+1, "saw"', csv: true }).split('\r\n');
    expect(counterLine).toBe(`"'=1+1, ""saw""",0,0,0.0,0.0,,,,,,,,`);
  });

  test('never calls unrated time zero points', () => {
    const [shift] = data(file, { wearable: '@Edda' }, 'wearable').shifts;
    expect(shift).toMatchObject({ dose: 0, points: null, a8: null, triggerMs: 60_000, unratedMs: 60_000 });
    expect(answer(file, { wearable: '@Edda' })).toMatch(/\n {4}1 +unrated +unrated +0:01:00\.0 +0:01:00\.0\n/);
  });
});

describe('what is refused', () => {
  test('a day without a readout, with the step that makes it have one', () => {
    const text = refusal(LOCK_DAY, { wearable: 'Edda' });
    expect(text).toContain("Edda's wearable is not read out on this day, so there is no record.");
    const step = text.trimEnd().split('\n').at(-1)!.trim();
    const DAY =
      'title: D\nregime: eu-2002-44\nfrom: 06:45\nuntil: 15:15\ntools: {saw: {hand: rotary, magnitude: 5.0}}\nworkers: {Edda: {}}\n';
    const mended = write('mended.yaml', `${DAY}day:\n  ${step}\nexpect: []\n`);
    expect(answer(mended, { wearable: 'Edda' })).toContain('read out at 15:14:00: 0 shifts, 0 sessions.');
  });

  test('a time before the first readout', () => {
    expect(refusal(READ_OUT, { wearable: 'Edda', at: '11:59' })).toBe(
      `${READ_OUT}: Edda's wearable is read out at 12:00:00 for the first time, later than that\n`,
    );
    expect(refusal(READ_OUT, { wearable: 'Edda', at: 'noon' })).toContain('--at "noon" is no time of day');
  });

  test.each(['06:44:59', '06:00', '15:30:01', 'day 2 07:00'])('a time outside the day: %s', (at) => {
    expect(refusal(READ_OUT, { wearable: 'Edda', at })).toBe(
      `--at ${at} lies outside the day, which goes from 06:45:00 to 15:30:00\n`,
    );
  });

  test('the end of the day is no time outside it', () => {
    expect(data(READ_OUT, { wearable: 'Edda', at: '15:30' }, 'wearable').readOutAtMs).toBe(8.25 * 3_600_000);
  });

  test('a readout that came to nothing', () => {
    const day = `title: D
regime: eu-2002-44
from: 07:00
until: 09:00
tools: {saw: {hand: rotary, magnitude: 5.0}}
workers: {Edda: {}}
day:
  - {at: 08:00, cut: Edda, for: 20s}
  - {at: 08:00:10, readout: Edda}
expect: []
`;
    expect(refusal(write('dark.yaml', day), { wearable: 'Edda' })).toContain(
      "Edda's wearable was laid into its reader at 08:00:10 and handed nothing over",
    );
  });

  test.each<[string, ReadoutOptions, string]>([
    ['nobody named', {}, 'whose record? Name it: --wearable WORKER, or --counter TOOL'],
    ['a misspelt worker', { wearable: 'Eda' }, 'the nearest is "Edda"'],
    ['a tool for a worker', { wearable: 'drill' }, '"drill" is a tool, whose counter is read out: --counter "drill"'],
    ['a worker for a tool', { counter: 'Bram' }, '"Bram" is a worker, whose wearable is read out: --wearable "Bram"'],
    ['a what-if that is none', { wearable: 'Edda', whatIf: 'x' }, 'this scenario has no what-ifs'],
  ])('%s', (_, options, sentence) => {
    expect(refusal(READ_OUT, options)).toContain(sentence);
  });
});

describe('a record that was saved', () => {
  const record = recordsOf(READ_OUT).at(-1)!;
  const hex = Buffer.from(record).toString('hex');
  const saved = (content: string | Uint8Array) => write('saved', content);

  test.each<[string, string | Uint8Array]>([
    ['bytes', record],
    ['hexadecimal digits', hex],
    ['digits in lines and capitals', `${hex.toUpperCase().replace(/(.{32})/g, '$1\n')}\n`],
  ])('is read from %s', (_, content) => {
    const options = { wearable: 'Edda', record: saved(content) };
    expect(data(READ_OUT, options, 'wearable')).toEqual({
      ...data(READ_OUT, { wearable: 'Edda' }, 'wearable'),
      readOutAtMs: null,
    });
    expect(answer(READ_OUT, options)).toContain(`Edda's wearable, as in ${options.record}: 2 shifts`);
  });

  test('is refused with any single byte of it damaged', { timeout: 60_000 }, () => {
    const file = saved('');
    for (const [at] of record.entries()) {
      // To every other value: tests/wearable/record.test.ts.
      const damaged = record.map((byte, index) => (index === at ? byte ^ 0x24 : byte));
      writeFileSync(file, Buffer.from(damaged).toString('hex'));
      expect(refusal(READ_OUT, { wearable: 'Edda', record: file })).toMatch(/saved: the record cannot be taken: .+\n$/);
    }
  });

  test.each<[string, string | Uint8Array, string]>([
    ['too short', hex.slice(0, 20), 'a record has 14 bytes at least, this one 10'],
    ['cut off', hex.slice(0, -2), 'the record says that it has'],
    ['cut off within a byte', hex.slice(0, -1), 'hexadecimal digits, and a byte takes two'],
    [
      'changed',
      hex.replace('0bb8', '0bb9'),
      'its CRC is wrong: some of it was changed or lost since the device wrote it',
    ],
    [
      'of another version',
      `${hex.slice(0, 6)}02${hex.slice(8)}`,
      'this is version 2 of the record; version 1 can be read',
    ],
    ['something else', '00'.repeat(20), 'this does not begin as a record does'],
    ['another file', 'shift,points\n1,25\n', 'these are neither the bytes of a record nor hexadecimal digits'],
    ['with a stray letter', `${hex}g`, 'these are neither the bytes of a record nor hexadecimal digits'],
    ['empty', '', 'a record has 14 bytes at least, this one 0'],
    ["a counter's", recordsOf(LOST)[0]!, 'this is no record of a wearable'],
    ['far too large', new Uint8Array(100_001), 'it has more than 100000 bytes, and no record has so many'],
  ])('that is %s is refused', (_, content, sentence) => {
    expect(refusal(READ_OUT, { wearable: 'Edda', record: saved(content) })).toContain(sentence);
  });

  test('of somebody else, or of nobody of this day, is refused', () => {
    expect(refusal(READ_OUT, { wearable: 'Bram', record: saved(record) })).toContain(
      "it is of Edda's wearable, not of Bram's wearable",
    );
    expect(refusal(LOST, { counter: 'breaker', record: saved(record) })).toContain('this is no record of a counter');
  });

  test('that is not there is told of', () => {
    const options = { wearable: 'Edda', record: join(folder, 'nothing') };
    expect(refusal(READ_OUT, options)).toMatch(/nothing: there is no such file\n$/);
  });
});
