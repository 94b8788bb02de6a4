// No day makes more vibration sample by sample than a bench has time for.
import { describe, expect, it } from 'vitest';
import { sampledMs } from '../../src/scenario/sampled.js';
import { tool } from '../rig/day.js';
import { messagesOf, readRun, scenarioText } from './reading.js';

const TOOLS =
  '{saw: {hand: rotary, magnitude: 4.6}, breaker: {hand: percussive, samples: percussive, magnitude: 12.0}}';
const MESSAGE = 'vibration is made from samples for more than 8h';
const messages = (...steps: readonly string[]) => messagesOf({ tools: TOOLS, day: `[${steps.join(', ')}]` });

describe('samples', () => {
  it('are named beside the hand, or not there', () => {
    const [saw, breaker] = readRun(scenarioText({ tools: TOOLS })).day.tools;
    expect(saw).not.toHaveProperty('samples');
    expect(breaker).toHaveProperty('samples', 'percussive');
    expect(messagesOf({ tools: '{saw: {hand: rotary, samples: idlng, magnitude: 4.6}}' })).toEqual([
      'unknown word "idlng" → idling',
    ]);
  });

  it('may last 8 hours in a day, those of runs and of drives together', () => {
    expect(messages('{at: 07:00, run: breaker, by: Edda, for: 5h}', '{at: 12:00, carry: saw, for: 3h}')).toEqual([]);
    expect(messages('{at: 07:00, run: breaker, by: Edda, for: 5h}', '{at: 12:00, carry: saw, for: 181m}')).toEqual([
      MESSAGE,
    ]);
  });

  it('may do so under every what-if, too', () => {
    const day = '[{at: 07:00, run: saw, by: Edda, for: 8h, as: cut}, {at: 15:30, carry: saw, for: 1m}]';
    const whatIf = '{a breaker: [{use: breaker, in: cut}]}';
    expect(messagesOf({ tools: TOOLS, day })).toEqual([]);
    expect(messagesOf({ tools: TOOLS, day, 'what-if': whatIf })).toEqual([MESSAGE]);
  });
});

describe('sampledMs', () => {
  it('counts runs of sampled tools and drives of any, none beyond the end of the day', () => {
    const run = (name: string, forMs: number) =>
      ({ atMs: 1000, do: 'run', tool: name, by: 'Edda', forMs, held: true }) as const;
    const tools = [tool('saw', 46), tool('breaker', 120, { samples: 'percussive' })];
    const events = [
      run('saw', 500),
      run('breaker', 700),
      { atMs: 2000, do: 'carry', tool: 'saw', forMs: 90_000 } as const,
    ];
    expect(sampledMs(tools, events, 10_000)).toBe(700 + 8000);
  });
});
