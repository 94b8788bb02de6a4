// TAL-7: wrong tags are looked at no more than 60 times a minute.
import fc from 'fast-check';
import { expect, test } from 'vitest';
import { isThrottled, noBadTags, noteBadTag } from '../../src/port/throttle.js';

const MINUTE = 60_000;

function bad(times: number, nowMs: number, tags = noBadTags()) {
  for (let made = 0; made < times; made++) noteBadTag(tags, nowMs);
  return tags;
}

test('59 wrong tags throttle nothing, the sixtieth does, until the minute is over', () => {
  expect(isThrottled(bad(59, 0), 0)).toBe(false);
  const tags = bad(60, 0);
  expect(isThrottled(tags, 0)).toBe(true);
  expect(isThrottled(tags, MINUTE - 1)).toBe(true);
  expect(isThrottled(tags, MINUTE)).toBe(false);
});

test('the count begins anew with the first wrong tag after a minute', () => {
  const tags = bad(59, 0);
  bad(1, MINUTE, tags);
  expect(tags).toEqual({ count: 1, sinceMs: MINUTE });
  bad(59, MINUTE, tags);
  expect(isThrottled(tags, MINUTE)).toBe(true);
});

test('whenever wrong tags come, no minute has more than 120 of them looked at', () => {
  fc.assert(
    fc.property(fc.array(fc.integer({ min: 0, max: 2_000 }), { minLength: 1, maxLength: 2_000 }), (gapsMs) => {
      const tags = noBadTags();
      const lookedAtMs: number[] = [];
      let nowMs = 0;
      for (const gapMs of gapsMs) {
        nowMs += gapMs;
        if (isThrottled(tags, nowMs)) continue;
        lookedAtMs.push(nowMs);
        noteBadTag(tags, nowMs);
      }
      for (const [index, atMs] of lookedAtMs.entries()) {
        const in120 = lookedAtMs[index + 120];
        if (in120 !== undefined) expect(in120 - atMs).toBeGreaterThanOrEqual(MINUTE);
      }
    }),
    { numRuns: 50 },
  );
});
