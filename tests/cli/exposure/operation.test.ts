import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { MAX_LENGTH, readOperation } from '../../../src/cli/exposure/operation.js';

const MINUTE = 60_000;
const HOUR = 60 * MINUTE;

describe('reading an operation', () => {
  it.each([
    ['4 m/s2 2h30m', 40, 2.5 * HOUR],
    ['4m/s2 2h30m', 40, 2.5 * HOUR],
    ['4 m/s² 2h30m', 40, 2.5 * HOUR],
    ['4.0 m/s²2h30m', 40, 2.5 * HOUR],
    ['  4.10  m/s2  2 h 30 min  ', 41, 2.5 * HOUR],
    ['12.5 m/s2 150min', 125, 2.5 * HOUR],
    ['12.5 m/s2 150m', 125, 2.5 * HOUR],
    ['0.1 m/s2 45s', 1, 45_000],
    ['50 m/s2 1h2m3s', 500, HOUR + 2 * MINUTE + 3000],
    ['50.0 m/s2 1.5h', 500, 1.5 * HOUR],
    ['5 m/s2 0.001s', 50, 1],
    ['5 m/s2 0min', 50, 0],
    ['5 m/s2 24h', 50, 24 * HOUR],
  ])('takes "%s"', (text, magnitudeTenths, triggerMs) => {
    expect(readOperation(text)).toMatchObject({ magnitudeTenths, triggerMs });
  });

  it.each([
    ['', 0, /a magnitude/],
    ['-4 m/s2 1h', 0, /a magnitude/],
    ['.5 m/s2 1h', 0, /a magnitude/],
    [' NaN m/s2 1h', 1, /a magnitude/],
    ['0 m/s2 1h', 0, /from 0.1 to 50/],
    ['0.05 m/s2 1h', 0, /from 0.1 to 50/],
    ['50.1 m/s2 1h', 0, /from 0.1 to 50/],
    ['4.25 m/s2 1h', 0, /steps of 0.1.*rounded up, 4.3/],
    ['4.1000001 m/s2 1h', 0, /rounded up, 4.2/],
    ['4,5 m/s2 1h', 1, /decimal point/],
    ['20 ms2 15m', 3, /the unit m\/s2 or m\/s².*"20 m\/s2/],
    ['4', 1, /the unit m\/s2/],
    ['4 m/s22h', 2, /the unit m\/s2/],
    ['4 m/s2', 6, /a time/],
    ['4 m/s2 ', 7, /a time/],
    ['4 m/s2 two hours', 7, /a time/],
    ['4 m/s2 2:30', 8, /write 2h30m or 2m30s/],
    ['4 m/s2 2h30', 11, /unit of time: min or m, s/],
    ['4 m/s2 2 hours', 9, /unit of time: h, min or m, s/],
    ['4 m/s2 15m/s', 9, /unit of time/],
    ['4 m/s2 1h1h', 10, /each unit once/],
    ['4 m/s2 1m1h', 10, /each unit once/],
    ['4 m/s2 5s7', 10, /each unit once/],
    ['4 m/s2 1.2345h', 7, /three decimals/],
    ['4 m/s2 24h1s', 7, /at most 24 h/],
    ['4 m/s2 2h; 3 m/s2 1h', 9, /a time/],
    [`4 m/s2 2h${' '.repeat(MAX_LENGTH)}`, MAX_LENGTH, /at most 80 characters/],
  ])('refuses "%s" at %s', (text, at, expected) => {
    expect(readOperation(text)).toMatchObject({ at, expected: expect.stringMatching(expected) });
  });

  it('reads back any magnitude and time that is written out', () => {
    const tenths = fc.integer({ min: 1, max: 500 });
    fc.assert(
      fc.property(tenths, fc.integer({ min: 0, max: 24 * HOUR }), (magnitudeTenths, triggerMs) => {
        const hours = Math.floor(triggerMs / HOUR);
        const minutes = Math.floor((triggerMs % HOUR) / MINUTE);
        const seconds = ((triggerMs % MINUTE) / 1000).toFixed(3);
        const text = `${(magnitudeTenths / 10).toFixed(1)} m/s2 ${hours}h${minutes}m${seconds}s`;
        expect(readOperation(text)).toMatchObject({ magnitudeTenths, triggerMs });
      }),
    );
  });

  it('answers any text, and points at a place in it or at its end', () => {
    const piece = fc.constantFrom(
      '4',
      '.',
      ',',
      ' ',
      'm/s2',
      'm/s²',
      'h',
      'min',
      'm',
      's',
      '30',
      ':',
      '-',
      '\u0000',
      '😀',
    );
    const text = fc.oneof(
      fc.array(piece).map((pieces) => pieces.join('')),
      fc.string({ unit: 'binary' }),
    );
    fc.assert(
      fc.property(text, (written) => {
        const read = readOperation(written);
        if ('expected' in read) {
          expect(read.at).toBeGreaterThanOrEqual(0);
          expect(read.at).toBeLessThanOrEqual(written.length);
        } else {
          expect(Number.isInteger(read.magnitudeTenths) && Number.isInteger(read.triggerMs)).toBe(true);
        }
      }),
    );
  });
});
