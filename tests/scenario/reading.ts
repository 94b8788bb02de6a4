// Short ways to a reading: a scenario text made of a frame and the parts that a test is about.
import { expect } from 'vitest';
import type { DayEvent } from '../../src/scenario/day.js';
import type { Expectation } from '../../src/scenario/expectation.js';
import type { Problem } from '../../src/scenario/problem.js';
import { readScenario } from '../../src/scenario/read.js';
import { renderProblem } from '../../src/scenario/render.js';
import type { Scenario, ScenarioRun } from '../../src/scenario/scenario.js';
import { WORDS } from './words.js';

const FRAME: Readonly<Record<string, string>> = {
  title: 'A day at the lock',
  regime: 'eu-2002-44',
  from: '06:50',
  until: '16:00',
  tools: '{breaker: {hand: percussive, magnitude: 12.0}, drill: {hand: impact, magnitude: 7.5, keyed: 7.5}}',
  workers: '{Edda: {}, Bram: {}}',
  day: '[]',
};

/** A scenario of which these top-level keys are as given; one key a line, in this order. */
export function scenarioText(parts: Readonly<Record<string, string>> = {}): string {
  return Object.entries({ ...FRAME, ...parts })
    .map(([key, value]) => `${key}: ${value}\n`)
    .join('');
}

/** The scenario of a text that must be good. */
export function read(text: string): Scenario {
  const reading = readScenario(text, 'lock.yaml', WORDS);
  expect(reading.ok ? [] : reading.problems.map(renderProblem)).toEqual([]);
  if (!reading.ok) throw new Error('the text is no scenario');
  return reading.scenario;
}

export function readRun(text: string): ScenarioRun {
  const [run] = read(text).runs;
  if (run === undefined) throw new Error('a scenario has a run');
  return run;
}

/** The events of steps written in flow style, without the list around them. */
export function eventsOf(...steps: readonly string[]): readonly DayEvent[] {
  return readRun(scenarioText({ day: `[${steps.join(', ')}]` })).day.events;
}

/** One expectation, beside two labelled steps that it may name. */
export function expectationOf(text: string): Expectation {
  const day = '[{at: 07:10, work: breaker, by: Edda, bursts: 2, of: 12s, every: 1m, as: morning cut}]';
  const [expectation] = readRun(scenarioText({ day, expect: `[${text}]` })).expectations;
  if (expectation === undefined) throw new Error('the expectation is gone');
  return expectation;
}

/** The problems of a text that must have some. */
export function problemsOf(text: string): readonly Problem[] {
  const reading = readScenario(text, 'lock.yaml', WORDS);
  return reading.ok ? [] : reading.problems;
}

/** The problems of steps, each as its kind, message and nearest word. */
export function messagesOf(parts: Readonly<Record<string, string>>): readonly string[] {
  return problemsOf(scenarioText(parts)).map(({ message, nearest }) => {
    return nearest === null ? message : `${message} → ${nearest}`;
  });
}
