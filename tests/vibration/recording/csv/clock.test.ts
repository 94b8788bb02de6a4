// The time column: rate, gaps, jitter and time that runs backwards, as far as the printed digits allow to tell.
import fc from 'fast-check';
import { afterAll, describe, expect, it, vi } from 'vitest';
import { folder, readAll, says, whats } from '../read-all.js';

vi.setConfig({ testTimeout: 60_000 });

const files = folder();
afterAll(files.remove);

function read(times: readonly (string | number)[]) {
  const rows = times.map(
    (time, at) => `${time};${Math.sin(at).toFixed(4)};${Math.cos(at).toFixed(4)};${Math.sin(3 * at).toFixed(4)}`,
  );
  return readAll(files.write('t.csv', ['time (s);x (g);y (g);z (g)', ...rows].join('\n')));
}

function even(count: number, rateHz: number, from = 0): number[] {
  return Array.from({ length: count }, (_, at) => from + at / rateHz);
}

function lengths({ stretches }: Awaited<ReturnType<typeof read>>): number[] {
  return stretches.map(({ length }) => length);
}

describe('the rate', () => {
  it.each([
    [3200, 6],
    [6400, 4],
    [25_600, 6],
    [48_000, 5],
    [51_200, 9],
  ])('of %d Hz is told by times with %d digits', async (rateHz, digits) => {
    const found = await read(even(2 * rateHz, rateHz).map((time) => time.toFixed(digits)));
    expect(found.rateHz).toBe(rateHz);
    expect(lengths(found)).toEqual([2 * rateHz]);
    expect(whats(found).filter((what) => what !== 'notes time-coarse')).toEqual([]);
  });

  it('is told by times in milliseconds that stand still from row to row, and what cannot be seen is said', async () => {
    const found = await read(even(12_800, 6400).map((time) => time.toFixed(3)));
    expect(found.rateHz / 6400).toBeCloseTo(1, 3);
    expect(whats(found)).toEqual(['notes time-coarse']);
  });

  it('is told by times with six digits that count, as many programs print them', async () => {
    const found = await read(even(60_000, 5000, 95).map((time) => String(Number(time.toPrecision(6)))));
    expect(found.rateHz / 5000).toBeCloseTo(1, 3);
    expect(lengths(found)).toEqual([60_000]);
    expect(whats(found)).toEqual(['notes time-coarse']);
  });

  it('is told by a clock that goes in milliseconds and prints six digits all the same', async () => {
    const found = await read(even(12_800, 6400).map((time) => `${time.toFixed(3)}000`));
    expect(found.rateHz / 6400).toBeCloseTo(1, 3);
    expect(lengths(found)).toEqual([12_800]);
    expect(whats(found)).toEqual(['notes time-coarse']);
    expect(says(found, 'time-coarse')).toContain('steps of 1 ms');
  });

  it('is not blamed for what binary numbers lose of seconds since 1970', async () => {
    // In steps of 238 ns there, with 1 µs from sample to sample.
    const found = await read(even(9000, 1e6, 1_700_000_000).map((time) => time.toFixed(9)));
    expect(whats(found)).toEqual(['doubts too-short']);
  });

  it('need not be whole, nor begin at 0', async () => {
    const found = await read(even(9000, 4166.6667, 1_700_000_000).map((time) => time.toFixed(6)));
    expect(found.rateHz / 4166.6667).toBeCloseTo(1, 6);
    expect(whats(found)).toEqual([]);
  });

  it('that drifts is doubted', async () => {
    const slower = even(60_000, 4950, 30_000 / 5000);
    const found = await read([...even(30_000, 5000), ...slower].map((time) => time.toFixed(7)));
    expect(whats(found)).toEqual(['doubts rate-drifts']);
  });
});

describe('gaps', () => {
  it('begin new stretches and are told with time and length', async () => {
    const found = await read([...even(5000, 5000), ...even(5000, 5000, 1.5), ...even(5000, 5000, 2.5002)]);
    expect(found.rateHz).toBe(5000);
    expect(lengths(found)).toEqual([5000, 5000, 5000]);
    expect(says(found, 'gaps')).toContain(
      '2 gaps, 0.5002 s in all: line 5002, at 0.9998 s, 0.5 s (2500 samples); line 10002, at 2.5 s, 0.0002 s (1 sample)',
    );
  });

  it('of any length anywhere are found, and nothing else', async () => {
    const property = fc.asyncProperty(
      fc.array(fc.tuple(fc.integer({ min: 30, max: 300 }), fc.integer({ min: 1, max: 999 })), {
        minLength: 1,
        maxLength: 4,
      }),
      async (parts) => {
        const times: number[] = [];
        let at = 0;
        for (const [rows, lost] of parts) {
          for (let row = 0; row < rows; row++) times.push(at++ / 8000);
          at += lost;
        }
        const found = await read(times.map((time) => time.toFixed(6)));
        expect(lengths(found)).toEqual(parts.map(([rows]) => rows));
        expect(whats(found).filter((what) => !/too-short|gaps/.test(what))).toEqual([]);
      },
    );
    await fc.assert(property, { numRuns: 50 });
  });

  it('behind a bad row are told where more than the row is missing', async () => {
    const times = even(10_000, 5000).map(String);
    const one = await read(times.with(100, 'bad'));
    expect(lengths(one)).toEqual([100, 9899]);
    expect(whats(one)).toEqual(['doubts rows-bad']);
    const more = await read(times.with(100, 'bad').toSpliced(101, 3));
    expect(says(more, 'gaps')).toContain('(3 samples)');
  });
});

describe('time', () => {
  it('that jitters is told, and by how much', async () => {
    const jitter = even(10_000, 5000).map((time, at) => time + (at % 10 === 5 ? 0.00005 : 0));
    const found = await read(jitter.map((time) => time.toFixed(6)));
    expect(lengths(found)).toEqual([10_000]);
    expect(whats(found)).toEqual(['doubts time-uneven']);
    expect(says(found, 'time-uneven')).toContain('2000 steps of time differ by more than 10 % from the usual 0.2 ms');
    const seldom = even(10_000, 5000).map((time, at) => time + (at === 5000 ? 0.00005 : 0));
    expect(whats(await read(seldom.map((time) => time.toFixed(6))))).toEqual(['notes time-uneven']);
  });

  it('that runs backwards begins a new stretch and is told', async () => {
    const found = await read([...even(6000, 5000), ...even(6000, 5000)]);
    expect(lengths(found)).toEqual([6000, 6000]);
    expect(says(found, 'time-backwards')).toContain('1 time: line 6002, from 1.2 s to 0 s');
  });
});
