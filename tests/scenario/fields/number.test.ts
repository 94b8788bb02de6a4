import { describe, expect, it } from 'vitest';
import { parseDecimal } from '../../../src/scenario/fields/number.js';
import { eventsOf, messagesOf } from '../reading.js';

describe('decimals', () => {
  it.each([
    ['19.25', 1925, 2],
    ['0', 0, 0],
    ['0.000001', 1, 6],
    ['3456000000', 3_456_000_000, 0],
    ['72000000000.0', 720_000_000_000, 1],
  ])('%s keeps every digit', (text, digits, places) => {
    expect(parseDecimal(text)).toEqual({ digits, places });
  });

  it.each([
    '',
    '1e1',
    '.5',
    '5.',
    '0x10',
    '0o7',
    '-1',
    '+1',
    '01',
    '1_000',
    '1,5',
    '.inf',
    '0.0000001',
    '9007199254740993',
  ])('%j is none', (text) => {
    expect(parseDecimal(text)).toBeNull();
  });
});

describe('a magnitude (MAG-1)', () => {
  it.each([
    ['0.5', 5],
    ['12', 120],
    ['12.0', 120],
    ['4.6', 46],
    ['50.0', 500],
  ])('of %s is read from its digits', (text, tenths) => {
    expect(eventsOf(`{at: 07:00, set: breaker, to: ${text}}`)).toEqual([
      { do: 'set', atMs: 600_000, tool: 'breaker', toTenths: tenths },
    ]);
  });

  it.each(['12.05', '12.00', '0.4', '50.1', '0', '1e1', '.5', '0x10', '-3', '.nan', '.inf', '5.'])(
    'of %s is refused',
    (text) => {
      expect(messagesOf({ day: `[{at: 07:00, set: breaker, to: ${text}}]` })).toHaveLength(1);
    },
  );

  it('is no text', () => {
    expect(messagesOf({ day: '[{at: 07:00, set: breaker, to: "12.0"}]' })).toEqual(['"12.0" is no number']);
  });
});
