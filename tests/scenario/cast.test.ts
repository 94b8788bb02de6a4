import { describe, expect, it } from 'vitest';
import { messagesOf, readRun, scenarioText } from './reading.js';

describe('tools', () => {
  it('have a hand, a true magnitude, and perhaps a keyed one', () => {
    const tools = '{wall saw: {hand: rotary, magnitude: 4.6, keyed: 4.8}, "no. 7": {hand: impact, magnitude: 9}}';
    expect(readRun(scenarioText({ tools })).day.tools).toEqual([
      { name: 'wall saw', hand: 'rotary', magnitudeTenths: 46, keyedTenths: 48 },
      { name: 'no. 7', hand: 'impact', magnitudeTenths: 90, keyedTenths: null },
    ]);
  });

  it.each([
    ['{}', ['there is no tool']],
    ['[]', ['here stands a list']],
    ['{saw: 4.6}', ['here stands "4.6"']],
    ['{saw: {magnitude: 4.6}}', ['a tool needs "hand"']],
    [
      '{saw: {hand: rotry, magnitude: 4.65}}',
      ['unknown word "rotry" → rotary', '4.65 is no magnitude that a counter can be set to'],
    ],
    ['{saw: {hand: rotary, magnitud: 4.6}}', ['a tool needs "magnitude"', 'a tool has no "magnitud" → magnitude']],
    ['{bench: {hand: rotary, magnitude: 4.6}}', ['"bench" is the bench\'s own name in a trace']],
    ['{" saw": {hand: rotary, magnitude: 4.6}}', ['this cannot be a name']],
    ['{"a\\tb": {hand: rotary, magnitude: 4.6}}', ['this cannot be a name']],
    ['{"a\\u202eb": {hand: rotary, magnitude: 4.6}}', ['this cannot be a name']],
    [`{${'a'.repeat(41)}: {hand: rotary, magnitude: 4.6}}`, ['this cannot be a name']],
  ])('%s are refused', (tools, messages) => {
    expect(messagesOf({ tools })).toEqual(messages);
  });
});

describe('workers', () => {
  it('have a notice level of 80 points, or their own, and perhaps a site limit (WEA-2)', () => {
    expect(readRun(scenarioText({ workers: '{Edda: {}, Bram: {notice: 60, site: 300}}' })).day.workers).toEqual([
      { name: 'Edda', noticePoints: 80, sitePoints: null },
      { name: 'Bram', noticePoints: 60, sitePoints: 300 },
    ]);
  });

  it.each([
    ['{}', ['there is no worker']],
    ['{Edda: }', ['here stands nothing']],
    ['{Edda: {notice: 0}}', ['0 is not possible here']],
    ['{Edda: {site: 1001}}', ['1001 is not possible here']],
    ['{Edda: {notice: 79.5}}', ['79.5 is not possible here']],
    ['{breaker: {}}', ['a tool has this name already']],
  ])('%s are refused', (workers, messages) => {
    expect(messagesOf({ workers })).toEqual(messages);
  });
});

describe('the frame', () => {
  it('names what is missing', () => {
    expect(messagesOf({ regime: '' })).toEqual(['here stands nothing']);
    expect(messagesOf({ seed: '4294967296' })).toEqual(['4294967296 is not possible here']);
    expect(messagesOf({ regime: 'eu-2002-4' })).toEqual(['unknown word "eu-2002-4" → eu-2002-44']);
    expect(messagesOf({ covers: '[TAL-3, TAL-4]' })).toEqual(['unknown requirement "TAL-4" → TAL-3']);
  });

  it('takes 1 for a seed that is not there', () => {
    expect(readRun(scenarioText()).day.seed).toBe(1);
    expect(readRun(scenarioText({ seed: '4294967295' })).day.seed).toBe(4_294_967_295);
  });
});
