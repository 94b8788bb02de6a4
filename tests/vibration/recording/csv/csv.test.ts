// CSV recordings: what is written is read back, and what is wrong is told with its line.
import fc from 'fast-check';
import { afterAll, describe, expect, it, vi } from 'vitest';
import { CSV_BLOCK_ROWS } from '../../../../src/vibration/recording/csv/csv.js';
import { MAX_LINE_BYTES } from '../../../../src/vibration/recording/csv/lines.js';
import { type CsvKind, csvFile, RATE_HZ, USUAL } from '../csv-files.js';
import { folder, gather, opened, readAll, refusal, says, whats } from '../read-all.js';

vi.setConfig({ testTimeout: 120_000 });

const files = folder();
afterAll(files.remove);

/** Two seconds that clip nowhere and stand still nowhere. */
function frames(count: number): (readonly [number, number, number])[] {
  return Array.from({ length: count }, (_, at) => [
    9.8 + 5 * Math.sin(at * 0.7),
    3 * Math.cos(at * 0.31),
    at % 2 === 0 ? 1 : -1 - 1e-3 * (at % 97),
  ]);
}
const LONG = 2 * RATE_HZ;

function written(content: string): Promise<Awaited<ReturnType<typeof readAll>>> {
  return readAll(files.write('a.csv', content));
}

/** rows of x, y, z behind a header without times, read at 25 600 Hz. */
function untimed(rows: readonly string[], header = 'x (m/s²);y (m/s²);z (m/s²)') {
  return readAll(files.write('a.csv', [header, ...rows, ''].join('\n')), { rateHz: RATE_HZ });
}

describe('what is written is read back', () => {
  const kinds = fc
    .record<CsvKind>({
      separator: fc.constantFrom(';', '\t', ',', ' '),
      mark: fc.constantFrom('.', ','),
      quoted: fc.boolean(),
      unit: fc.constantFrom('m/s²', 'g'),
      time: fc.constantFrom('s', 'ms', 'none'),
      end: fc.constantFrom('\n', '\r\n'),
      byteOrderMark: fc.boolean(),
    })
    .filter(({ separator, mark, quoted }) => separator !== ',' || mark === '.' || quoted);
  const acceleration = fc.double({ min: -5000, max: 5000, noNaN: true });

  it('with each separator, decimal mark, unit and line end', async () => {
    const rows = fc.array(fc.tuple(acceleration, acceleration, acceleration), { minLength: 3, maxLength: 40 });
    const property = fc.asyncProperty(kinds, rows, async (kind, sent) => {
      const path = files.write('p.csv', csvFile(kind, sent));
      const { rateHz, stretches, findings } = await readAll(path, kind.time === 'none' ? { rateHz: RATE_HZ } : {});
      // Seven decimals of ms or s over so many steps; twice, as the rate is rounded to a whole one within them.
      const part = ((kind.time === 'none' ? 0 : kind.time === 's' ? 2e-7 : 2e-10) * RATE_HZ) / (sent.length - 1);
      expect(Math.abs(rateHz / RATE_HZ - 1)).toBeLessThanOrEqual(part * 1.001);
      expect(stretches.length).toBe(1);
      expect(stretches[0]!.length).toBe(sent.length);
      for (const [at, frame] of sent.entries()) {
        for (const [axis, value] of frame.entries()) {
          expect(Math.abs(stretches[0]![at]![axis]! - value)).toBeLessThan(0.5e-6 * 9.80665 + 1e-9);
        }
      }
      expect(findings.filter(({ what }) => !['too-short', 'axis-flat', 'clipped'].includes(what))).toEqual([]);
    });
    await fc.assert(property, { numRuns: 150 });
  });

  it('over the ends of blocks, twice the same, and with nothing to say of a good file', async () => {
    const sent = frames(2 * CSV_BLOCK_ROWS + 17);
    const recording = await opened(files.write('long.csv', csvFile(USUAL, sent)));
    const first = await gather(recording);
    expect(first.rateHz).toBe(RATE_HZ);
    expect(first.findings).toEqual([]);
    expect(first.stretches.length).toBe(1);
    expect(first.stretches[0]!.length).toBe(sent.length);
    for (const at of [0, CSV_BLOCK_ROWS - 1, CSV_BLOCK_ROWS, sent.length - 1]) {
      expect(first.stretches[0]![at]![0]).toBeCloseTo(sent[at]![0], 5);
    }
    expect(recording.bytes.read).toBe(recording.bytes.total);
    expect(await gather(recording)).toEqual(first);
  });
});

describe('the header', () => {
  it.each([
    ['time;x;y;z', 3],
    ['Time (s);Acc_X (m/s^2);Acc_Y (m/s^2);Acc_Z (m/s^2)', 0],
    ['t/s;a_x/(m/s²);a_y/(m/s²);a_z/(m/s²)', 0],
    ['time_s;ax m/s2;ay m/s2;az m/s2', 0],
    ['Zeit [s];x-axis [m/s\ufffd];y-axis [m/s\ufffd];z-axis [m/s\ufffd]', 0],
  ])('%s', async (header, assumed) => {
    const rows = frames(LONG).map((frame, at) => [(at / RATE_HZ).toFixed(7), ...frame].join(';'));
    const read = await written([header, ...rows].join('\n'));
    expect(read.stretches.map(({ length }) => length)).toEqual([LONG]);
    const expected = Array.from({ length: assumed }, () => 'doubts unit-assumed');
    expect(whats(read)).toEqual(assumed > 0 ? ['notes unit-assumed', ...expected] : []);
  });

  it('takes 1 g as 9.80665 m/s² (ISO 80000-3)', async () => {
    const read = await untimed(['1;2;-1', '0;0;0'], 'x (g);y [G];z_g');
    expect(read.stretches).toEqual([
      [
        [9.80665, 19.6133, -9.80665],
        [0, 0, 0],
      ],
    ]);
  });

  it('may be followed by a row of units', async () => {
    const path = files.write('a.csv', 'time;x;y;z\nms;g;g;m/s²\n0;1;2;3\n0.5;2;3;4\n1;1;2;3\nbad;1;2;3\n');
    const read = await readAll(path);
    expect(read.rateHz).toBe(2000);
    expect(read.stretches[0]![0]).toEqual([9.80665, 19.6133, 3]);
    expect(says(read, 'unit-assumed')).toBe('');
    expect(says(read, 'rows-bad')).toContain('1 row cannot be read: line 6');
  });

  it('may come behind comments of any number and lines that are neither', async () => {
    const comments = Array.from(
      { length: 30_000 },
      (_, at) => `${['#', '//', '%'][at % 3]} "comment ${at}, with; marks`,
    );
    const read = await written(
      [
        ...comments,
        '',
        'Device: invented',
        'time (s),x (g),y (g),z (g)',
        '# begins',
        '0,1,2,3',
        '',
        '0.0001,2,3,4',
        '0.0002,1,2,3',
      ].join('\r\n'),
    );
    expect(read.stretches.map(({ length }) => length)).toEqual([3]);
    expect(says(read, 'lines-before-header')).toContain('line 30003');
  });

  it('with blanks as separators may be ragged', async () => {
    const read = await written('time (s)   x (g)  y (g)\tz (g)\n  0    1 2   3\n 0.0001 \t -1 2   3  \n0.0002 1 2 3\n');
    expect(read.stretches.map(({ length }) => length)).toEqual([3]);
    expect(read.rateHz).toBe(10_000);
  });

  it.each([
    ['names no column', '0;1;2;3\n1;1;2;3\n', /line 2: no header names the columns/],
    [
      'has a unit that nobody knows',
      'time (s);x (furlong)\n0;1\n',
      /line 1: the unit of column "x \(furlong\)" is not known/,
    ],
    ['has a unit of time that is not known', 'time (h);x (g)\n0;1\n', /State s or ms/],
    ['names an axis twice', 'time;x (g);ax (g)\n0;1;2\n', /two columns are named x/],
    ['has no time, and no rate is given', 'x;y;z\n1;2;3\n', /line 1: no column is named time.*--rate/],
    ['times that stand still', 'time;x;y;z\n1;2;3;4\n1;2;3;4\n', /line 2: the times of the first rows tell no rate/],
    ['times that are dates', 'time;x\n12:00:01;2\n12:00:02;3\n', /tell no rate/],
    ['commas for everything', 'time,x,y,z\n0,001,1,5,2,5,3,5\n0,002,1,5,2,5,3,5\n', /semicolons/],
    ['nothing at all', '\n\n', /no header/],
  ])('is refused where it %s', async (_, content, says) => {
    const error = await refusal(files.write('bad.csv', content));
    expect(error.says).toMatch(says);
    expect(error.line).toBeGreaterThan(0);
    expect(error.file).toContain('bad.csv');
  });
});

describe('bad rows', () => {
  it('are named by line and column, and break the stretch', async () => {
    const read = await untimed([
      '1;2;3',
      '1;oops;3',
      '# comment',
      '1;2;4',
      '1;2',
      '1;2;3;4',
      '5;;6',
      '1;0x10;1',
      '7;8;9;',
    ]);
    expect(read.stretches).toEqual([[[1, 2, 3]], [[1, 2, 4]], [[7, 8, 9]]]);
    const told = says(read, 'rows-bad');
    expect(told).toContain(
      '5 rows cannot be read: line 3, column "y (m/s²)": "oops" is no number; line 6, column "z (m/s²)" is missing',
    );
    expect(told).toContain(
      'line 7, 4 cells where the header has 3; line 8, column "y (m/s²)": "" is no number; line 9',
    );
  });

  it('are counted beyond the first few', async () => {
    const read = await untimed([...Array.from({ length: 12 }, () => 'a;b;c'), '1;2;3']);
    expect(says(read, 'rows-bad')).toMatch(/^12 rows.*line 6.*; and 7 more\. /);
    expect(read.findings.find(({ what }) => what === 'rows-bad')!.weight).toBe('doubts');
  });

  it('with an open quote swallow no other row', async () => {
    const read = await untimed(['"1";"2";"3"', '1;"2;3', '"4";"5";"6"', '7;8;9']);
    expect(read.stretches).toEqual([
      [[1, 2, 3]],
      [
        [4, 5, 6],
        [7, 8, 9],
      ],
    ]);
    expect(says(read, 'rows-bad')).toContain('line 3, its quotes do not match');
  });

  it('that hold no finite or no possible number are told as such', async () => {
    const read = await untimed(['1;2;3', 'NaN;2;3', '-inf;2;3', '1;1e300;3', '1;2;1e999', '4;5;6']);
    expect(read.stretches).toEqual([[[1, 2, 3]], [[4, 5, 6]]]);
    expect(says(read, 'samples-impossible')).toContain(
      '4 samples not finite or beyond 1000000 m/s²: line 3, column "x (m/s²)": NaN',
    );
    expect(says(read, 'rows-bad')).toBe('');
  });

  it('of any length need no memory, and the line numbers go on', async () => {
    const endless = '1;2;3'.repeat(MAX_LINE_BYTES);
    const read = await untimed(['1;2;3', endless, '4;5;6', 'bad;1;2']);
    expect(read.stretches).toEqual([[[1, 2, 3]], [[4, 5, 6]]]);
    expect(says(read, 'lines-too-long')).toContain('1 line too long to be a row: line 3');
    expect(says(read, 'rows-bad')).toContain('line 5');
  });

  it('do not hide that there is no sample left', async () => {
    expect(whats(await untimed(['a;b;c']))).toEqual(['doubts rows-bad', 'refuses empty']);
  });
});

describe('axes', () => {
  it('that are missing are zeros, and doubted', async () => {
    const read = await untimed(['1', '2'], 'y (g)');
    expect(read.stretches[0]).toEqual([
      [0, 9.80665, 0],
      [0, 19.6133, 0],
    ]);
    expect(says(read, 'axes-missing')).toContain('axes x and z are missing');
    expect(whats(read)).not.toContain('doubts axis-flat');
  });
});

describe('options', () => {
  it('a rate that contradicts the times is told', async () => {
    const path = files.write('a.csv', csvFile(USUAL, frames(LONG)));
    expect(whats(await readAll(path, { rateHz: 12_800 }))).toEqual(['doubts rate-contradicted']);
    expect(whats(await readAll(path, { rateHz: RATE_HZ }))).toEqual([]);
  });
});
