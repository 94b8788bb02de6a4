import { describe, expect, it } from 'vitest';
import { z } from 'zod';
import { CLEAR_AIR } from '../../../sim/radio/radio.js';
import { CLEAR_DELAY_MS } from '../../../src/scenario/verbs/air.js';
import { VERBS } from '../../../src/scenario/verbs/verbs.js';
import { eventsOf, messagesOf, problemsOf, scenarioText } from '../reading.js';

const AT = { atMs: 600_000 };
const NEVER = { num: 0, den: 1 };
const CLEAR = { loss: NEVER, duplicate: NEVER, errors: NEVER, delayMs: [2, 12], forMs: null };
const LINK = { ...AT, do: 'air', tool: 'breaker', worker: 'Edda' };
const CUT = { ...AT, do: 'cut', when: 'now', afterBytes: 0, forMs: 20_000 };

describe('a step', () => {
  it.each([
    ['run: breaker, by: Edda, for: 12s', { ...AT, do: 'run', tool: 'breaker', by: 'Edda', forMs: 12_000, held: true }],
    [
      'run: drill, by: Bram, for: 1m, held: no',
      { ...AT, do: 'run', tool: 'drill', by: 'Bram', forMs: 60_000, held: false },
    ],
    ['carry: breaker, for: 40m', { ...AT, do: 'carry', tool: 'breaker', forMs: 2_400_000 }],
    ['set: breaker, to: 12.0', { ...AT, do: 'set', tool: 'breaker', toTenths: 120 }],
    ['pair: breaker, with: Edda', { ...AT, do: 'pair', tool: 'breaker', with: 'Edda' }],
    ['press: breaker, for: 2s', { ...AT, do: 'press', tool: 'breaker', forMs: 2000 }],
    ['turn: breaker, detents: -3, every: 200ms', { ...AT, do: 'turn', tool: 'breaker', detents: -3, everyMs: 200 }],
    ['touch: breaker, with: Edda', { ...AT, do: 'touch', tool: 'breaker', with: 'Edda' }],
    ['tap: Edda, for: 200ms', { ...AT, do: 'tap', worker: 'Edda', forMs: 200 }],
    ['close: Edda', { ...AT, do: 'close', worker: 'Edda' }],
    ['readout: Edda', { ...AT, do: 'readout', device: 'Edda' }],
    ['readout: breaker', { ...AT, do: 'readout', device: 'breaker' }],
    ['leave: Edda', { ...AT, do: 'leave', who: ['Edda'], forMs: null }],
    ['leave: [Edda, breaker], for: 5m', { ...AT, do: 'leave', who: ['Edda', 'breaker'], forMs: 300_000 }],
    ['return: [Edda, breaker]', { ...AT, do: 'return', who: ['Edda', 'breaker'] }],
    ['air: [breaker, Edda], loss: 1/2', { ...LINK, ...CLEAR, loss: { num: 1, den: 2 } }],
    ['air: [breaker, Edda], loss: 2/4, for: 1h', { ...LINK, ...CLEAR, loss: { num: 2, den: 4 }, forMs: 3_600_000 }],
    ['air: [breaker, Edda], duplicate: 1/3', { ...LINK, ...CLEAR, duplicate: { num: 1, den: 3 } }],
    ['air: [breaker, Edda], errors: 1/20', { ...LINK, ...CLEAR, errors: { num: 1, den: 20 } }],
    ['air: [breaker, Edda], delay: 200ms', { ...LINK, ...CLEAR, delayMs: [200, 200] }],
    ['air: [breaker, Edda], delay: [0ms, 2s]', { ...LINK, ...CLEAR, delayMs: [0, 2000] }],
    ['air: [breaker, Edda], out: yes', { ...LINK, ...CLEAR, loss: { num: 1, den: 1 } }],
    ['air: [breaker, Edda], loss: 0/1', { ...LINK, ...CLEAR }],
    [
      'sensor: breaker, fault: frozen, for: 30s',
      { ...AT, do: 'sensor', tool: 'breaker', fault: 'frozen', forMs: 30_000 },
    ],
    ['cut: breaker, for: 20s', { ...CUT, device: 'breaker' }],
    ['cut: Edda, for: 20s', { ...CUT, device: 'Edda' }],
    ['cut: breaker, during: erase, for: 20s', { ...CUT, device: 'breaker', when: 'erase' }],
    ['cut: breaker, during: write, for: 20s', { ...CUT, device: 'breaker', when: 'write' }],
    [
      'cut: breaker, during: write, after: 5 bytes, for: 20s',
      { ...CUT, device: 'breaker', when: 'write', afterBytes: 5 },
    ],
    [
      'cut: breaker, during: write, after: 1 byte, for: 20s',
      { ...CUT, device: 'breaker', when: 'write', afterBytes: 1 },
    ],
    ['cell: breaker, left: 8%', { ...AT, do: 'cell', device: 'breaker', toPercent: 8 }],
    ['cell: Edda, left: 0%', { ...AT, do: 'cell', device: 'Edda', toPercent: 0 }],
    ['exchange: breaker, for: 2m', { ...AT, do: 'exchange', device: 'breaker', forMs: 120_000 }],
    ['clock: breaker, off: 400ppm', { ...AT, do: 'clock', device: 'breaker', ppm: 400, driftPpm: 0, forMs: null }],
    ['clock: breaker, off: +400ppm', { ...AT, do: 'clock', device: 'breaker', ppm: 400, driftPpm: 0, forMs: null }],
    ['clock: Edda, off: -0ppm', { ...AT, do: 'clock', device: 'Edda', ppm: 0, driftPpm: 0, forMs: null }],
    [
      'clock: Edda, off: -20000ppm, drift: -20ppm/h, for: 1h',
      { ...AT, do: 'clock', device: 'Edda', ppm: -20_000, driftPpm: -20, forMs: 3_600_000 },
    ],
    ['flash: breaker, bad page: 3', { ...AT, do: 'flash', device: 'breaker', page: 3 }],
    [
      'attack: [breaker, Bram], how: replay, frame every: 2s, for: 10m',
      { ...AT, do: 'attack', how: 'replay', tool: 'breaker', worker: 'Bram', everyMs: 2000, forMs: 600_000 },
    ],
    [
      'attack: [breaker, Bram], how: middle, for: 10m',
      { ...AT, do: 'attack', how: 'middle', tool: 'breaker', worker: 'Bram', everyMs: 0, forMs: 600_000 },
    ],
  ])('%s', (step, event) => {
    expect(eventsOf(`{at: 07:00, ${step}}`)).toEqual([event]);
    expect(eventsOf(`{${step}, as: handing out, at: 07:00}`)).toEqual([event]);
  });

  it('takes for clear air what the radio does', () => {
    expect(CLEAR_DELAY_MS).toEqual([CLEAR_AIR.delayFromMs, CLEAR_AIR.delayToMs]);
  });

  it('writes out bursts', () => {
    expect(eventsOf('{at: 07:00, work: breaker, by: Edda, bursts: 3, of: 12s, every: 1m}')).toEqual(
      [600_000, 660_000, 720_000].map((atMs) => {
        return { do: 'run', atMs, tool: 'breaker', by: 'Edda', forMs: 12_000, held: true };
      }),
    );
  });

  it('stands among the others by its time, and in written order at the same time', () => {
    const events = eventsOf(
      '{at: 07:01, close: Edda}',
      '{at: 07:00, work: breaker, by: Edda, bursts: 2, of: 12s, every: 1m}',
      '{at: 07:00, close: Bram}',
    );
    expect(events.map((event) => [event.atMs, event.do])).toEqual([
      [600_000, 'run'],
      [600_000, 'close'],
      [660_000, 'close'],
      [660_000, 'run'],
    ]);
  });

  it.each([
    ['wrok: breaker, by: Edda', ['unknown verb "wrok" → work']],
    ['lunch: Edda', ['unknown verb "lunch"']],
    ['by: Edda, for: 5m', ['this step has no verb']],
    ['close: Edda, readout: Edda', ['a second verb, "readout", beside "close"']],
    ['close: Eda', ['unknown worker "Eda" → Edda']],
    ['close: breaker', ['"breaker" is a tool, and a worker is needed here']],
    ['set: braeker, to: 12.0', ['unknown tool "braeker" → breaker']],
    ['leave: [Edda, brekaer]', ['unknown tool or worker "brekaer" → breaker']],
    ['leave: [Edda, Edda]', ['"Edda" stands here twice']],
    ['leave: []', ['this list is empty']],
    ['close: 12', ['"12" is no text to YAML']],
    ['close: {}', ['here stands a map']],
    ['close:', ['here stands nothing']],
    ['close: Edda, fro: 5m', ['a "close" step has no "fro"']],
    ['pair: breaker, wth: Edda', ['a "pair" step needs "with"', 'a "pair" step has no "wth" → with']],
    ['run: breaker, by: Edda, for: 12s, held: false', ['unknown word "false"']],
    ['run: breaker, by: Edda, for: 12s, held: maybe', ['unknown word "maybe"']],
    ['run: breaker, by: Edda, for: 0s', ['0s is out of range']],
    ['run: breaker, by: Edda, for: 169h', ['169h is out of range']],
    ['run: breaker, by: Edda, for: 12', ['"12" has no unit']],
    ['turn: breaker, detents: 0, every: 1s', ['no detent is no turn']],
    ['turn: breaker, detents: 501, every: 1s', ['501 is not possible here']],
    ['turn: breaker, detents: 1.5, every: 1s', ['1.5 is not possible here']],
    ['air: [breaker, Edda]', ['this does not say what the air does']],
    ['air: [breaker, Edda], out: yes, loss: 1/2', ['"out" and "loss" exclude each other']],
    [
      'air: [Edda, breaker], out: yes',
      ['"Edda" is a worker, and a tool is needed here', '"breaker" is a tool, and a worker is needed here'],
    ],
    ['air: breaker, out: yes', ['the air lies between one counter and one wearable']],
    ['air: [breaker, Edda, Bram], out: yes', ['the air lies between one counter and one wearable']],
    ['air: [breaker, Edda], loss: 2/1', ['2/1 is no probability']],
    ['air: [breaker, Edda], loss: 1/0', ['"1/0" is no ratio']],
    ['air: [breaker, Edda], loss: 0.5', ['"0.5" is no ratio']],
    ['air: [breaker, Edda], loss: 50%', ['"50%" is no ratio']],
    ['air: [breaker, Edda], delay: [2s, 1s]', ['this delay is not possible']],
    ['air: [breaker, Edda], delay: [1s]', ['this is no delay']],
    ['air: [breaker, Edda], delay: 1h', ['this delay is not possible']],
    ['air: [breaker, Edda], errors: 5%', ['"5%" is no ratio']],
    ['cut: braeker, for: 20s', ['unknown tool or worker "braeker" → breaker']],
    ['cut: breaker', ['a "cut" step needs "for"']],
    ['cut: breaker, during: wirte, for: 20s', ['unknown word "wirte" → write']],
    ['cut: breaker, after: 5 bytes, for: 20s', ['"after" goes with "during: write"']],
    ['cut: breaker, during: erase, after: 5 bytes, for: 20s', ['"after" goes with "during: write"']],
    ['cut: breaker, during: write, after: 5, for: 20s', ['"5" is no whole number of bytes']],
    ['cut: breaker, during: write, after: -5 bytes, for: 20s', ['"-5 bytes" is no whole number of bytes']],
    ['cut: breaker, during: write, after: 65537 bytes, for: 20s', ['65537 bytes is out of range']],
    ['cell: breaker, left: 101%', ['101% is out of range']],
    ['cell: breaker, left: 8', ['"8" is no whole number of %']],
    ['cell: breaker, left: 7.5%', ['"7.5%" is no whole number of %']],
    ['exchange: breaker', ['an "exchange" step needs "for"']],
    ['clock: breaker', ['this does not say what the clock does']],
    ['clock: breaker, off: 20001ppm', ['20001ppm is out of range']],
    ['clock: breaker, off: -20001ppm', ['-20001ppm is out of range']],
    ['clock: breaker, off: 2%', ['"2%" is no whole number of ppm']],
    ['clock: breaker, drift: 1001ppm/h', ['1001ppm/h is out of range']],
    ['clock: breaker, drift: 20ppm', ['"20ppm" is no whole number of ppm/h']],
    ['flash: breaker, bad page: 16', ['16 is not possible here']],
    ['flash: breaker, page: 3', ['a "flash" step needs "bad page"', 'a "flash" step has no "page"']],
    ['attack: breaker, how: replay, frame every: 2s, for: 1m', ['the air lies between one counter and one wearable']],
    ['attack: [breaker, Bram], how: replya, frame every: 2s, for: 1m', ['unknown word "replya" → replay']],
    ['attack: [breaker, Bram], how: flood, for: 1m', ['flood needs "frame every"']],
    ['attack: [breaker, Bram], how: flood, frame every: 9ms, for: 1m', ['9ms is out of range']],
    ['attack: [breaker, Bram], how: middle, frame every: 2s, for: 1m', ['who stands in the middle has no pace']],
    ['attack: [breaker, Bram], how: flood, frame every: 10ms, for: 17m', ['attackers send more than 100000 frames']],
    ['sensor: Edda, fault: frozen, for: 30s', ['"Edda" is a worker, and a tool is needed here']],
    ['sensor: breaker, fault: frozn, for: 30s', ['unknown word "frozn" → frozen']],
    ['work: breaker, by: Edda, bursts: 0, of: 12s, every: 1m', ['0 is not possible here']],
    ['work: breaker, by: Edda, bursts: 3, of: 2m, every: 1m', ['"every" is shorter than "of"']],
    ['work: breaker, by: Edda, bursts: 542, of: 12s, every: 1m', ['the last burst lies outside the day']],
    ['close: Edda, as: end', ['"end" cannot be a label']],
    ['close: Edda, as: 07:10', ['"07:10" cannot be a label']],
  ])('%s is refused', (step, messages) => {
    expect(messagesOf({ day: `[{at: 07:00, ${step}}]` }).toSorted()).toEqual([...messages].sort());
  });

  it.each([
    ['-5 bytes', ''],
    ['65537', ''],
    ['5', '; perhaps 5 bytes'],
    ['+5 Bytes', '; perhaps 5 bytes'],
  ])('has %s put right only where that is possible', (after, hint) => {
    const day = `[{at: 07:00, cut: breaker, during: write, after: ${after}, for: 20s}]`;
    const [problem] = problemsOf(scenarioText({ day }));
    expect(problem?.expected).toBe(`expected what is still written, from 0 bytes to 65536 bytes${hint}`);
  });

  it('needs a time', () => {
    expect(messagesOf({ day: '[{close: Edda}]' })).toEqual(['a "close" step needs "at"']);
    expect(messagesOf({ day: '[{at: 7:00, close: Edda}]' })).toEqual(['"7:00" is no time']);
  });

  it('is a map in a list', () => {
    expect(messagesOf({ day: '[close]' })).toEqual(['here stands "close"']);
    expect(messagesOf({ day: '{at: 07:00, close: Edda}' })).toEqual(['here stands a map']);
  });

  it('tells of everything that is wrong with it, and with the others, at once', () => {
    const day = '[{at: 25:00, set: braeker, to: 12.05}, {at: 07:00, pair: drill, with: Brm}]';
    expect(messagesOf({ day, regime: 'eu', colour: 'x' })).toEqual([
      'unknown word "eu"',
      '"25:00" is no time',
      'unknown tool "braeker" → breaker',
      '12.05 is no magnitude that a counter can be set to',
      'unknown worker "Brm" → Bram',
      'a scenario has no "colour"',
    ]);
  });
});

describe('the definitions of the verbs', () => {
  it.each([...VERBS.values()])('$word gives a strict JSON Schema of its step', ({ word, definition }) => {
    const schema = z.toJSONSchema(definition, { io: 'input', unrepresentable: 'any' });
    expect(schema.additionalProperties).toBe(false);
    expect(schema.required).toEqual(expect.arrayContaining(['at', word]));
    for (const property of Object.values(schema.properties ?? {})) {
      expect(property).toMatchObject({ description: expect.stringMatching(/./) });
      expect(property).toSatisfy((known: object) => 'type' in known || 'anyOf' in known);
    }
  });
});
