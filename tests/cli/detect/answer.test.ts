// counterproof detect: the detector on synthesised work of which the running times are known, from marks and from a trace.
import { mkdtempSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterAll, describe, expect, test, vi } from 'vitest';
import { acceleration } from '../../../sim/handwork/acceleration.js';
import { RATE_HZ } from '../../../sim/handwork/wave.js';
import { Bench } from '../../../src/bench/bench.js';
import { answerDetect, type DetectOptions } from '../../../src/cli/detect/answer.js';
import { type DetectOutput, detectOutput } from '../../../src/cli/schemas/detect.js';
import { canonicalLine } from '../../../src/trace/canonical.js';
import { dayOf, run, tool, worker } from '../../rig/day.js';
import { burstsOf } from '../../rig/handwork.js';

vi.setConfig({ testTimeout: 60_000 });

const folder = mkdtempSync(join(tmpdir(), 'counterproof-'));
afterAll(() => rmSync(folder, { recursive: true }));

function write(name: string, content: string | Uint8Array): string {
  const path = join(folder, name);
  writeFileSync(path, content);
  return path;
}

const BURSTS = 6;
const WORK = burstsOf('percussive', BURSTS, [2000, 4000], [1500, 3000]);
const endMs = WORK.at(-1)!.untilMs;
/** Then it is carried in a van. */
const motions = [...WORK, { vibration: 'carried' as const, fromMs: endMs + 2000, untilMs: endMs + 22_000 }];
const samples = acceleration({ seed: 1, name: 'breaker' }, motions, 0, endMs + 24_000);
const file = write(
  'work.csv',
  `x (m/s²),y (m/s²),z (m/s²)\n${Array.from(samples, (x, at) => `${x.toFixed(3)},${(at % 2) / 100},${9.81 + (at % 3) / 100}`).join('\n')}\n`,
);
const marks = write(
  'marks.csv',
  `startS,stopS\n${WORK.map(({ fromMs, untilMs }) => `${fromMs / 1000},${untilMs / 1000}`).join('\n')}\n`,
);
const rate = RATE_HZ;

async function answer(options: DetectOptions): Promise<string> {
  const said = await answerDetect(file, { rate, ...options });
  return 'refusal' in said ? said.refusal : said.answer;
}

async function json(options: DetectOptions): Promise<DetectOutput> {
  return detectOutput.parse(JSON.parse(await answer({ ...options, json: true })));
}

describe('work, and then a van', () => {
  test('the work is found, and what the van makes is false', async () => {
    const { byDefault, best, findings } = await json({ truth: marks });
    expect(byDefault).toMatchObject({ missedBursts: 0, settings: { onLevelMm: 1000, offLevelMm: 600 } });
    expect(byDefault!.falseBursts).toBeGreaterThan(0);
    expect(byDefault!.trueMs).toBe(WORK.reduce((sum, { fromMs, untilMs }) => sum + untilMs - fromMs, 0));
    // TRG-4: within a window at each end.
    expect(byDefault!.missedMs).toBeLessThanOrEqual(2 * 100 * BURSTS);
    expect([best, findings]).toEqual([null, []]);
  });

  test('the sweep finds a setting that the van does not reach', async () => {
    const { byDefault, best, tried } = await json({ truth: marks, sweep: true });
    expect(tried).toBeGreaterThan(1000);
    expect(best!.falseBursts + best!.missedBursts).toBe(0);
    expect(best!.falseMs + best!.missedMs).toBeLessThan(byDefault!.falseMs + byDefault!.missedMs);
    expect(best!.settings.onLevelMm).toBeGreaterThan(1000);
  });

  test('a person is told in a table', async () => {
    const said = await answer({ truth: marks, sweep: true });
    expect(said).toMatch(/\nsetting +on +off +start +stop +ran +counted +false +missed +bursts false +missed +short\n/);
    expect(said).toMatch(/\nTRG-1 +1\.0 +0\.6 +2 +5 /);
    expect(said).toMatch(/\nbest of \d+ +\d\.\d +\d\.\d +\d +\d .* 0 +0 +\d+\n/);
  });

  test('the sweep is drawn into a new file, and nothing that is there is lost', async () => {
    const picture = join(folder, 'sweep.svg');
    await answer({ truth: marks, sweep: true, picture });
    expect(readFileSync(picture, 'utf8')).toMatch(/^<svg /);
    expect(await answer({ truth: marks, sweep: true, picture })).toMatch(
      /^.*sweep\.svg: the picture cannot be written: EEXIST/,
    );
  });
});

describe('the truth from a trace of the bench', () => {
  const traceOf = (tools: readonly string[]) => {
    const runs = tools.flatMap((name) =>
      WORK.map(({ fromMs, untilMs }) => run(fromMs, name, 'Edda', untilMs - fromMs)),
    );
    const day = dayOf(
      tools.map((name) => tool(name, 100)),
      [worker('Edda'), worker('Bram')],
      runs,
      { untilMs: endMs + 24_000 },
    );
    const held = { ...day, events: day.events.map((event) => ('held' in event ? { ...event, held: false } : event)) };
    const bench = Bench.open(held);
    bench.run();
    return bench.events.map((event) => `${canonicalLine(event)}\n`).join('');
  };
  const one = write('one.ndjson', traceOf(['breaker']));
  const two = write('two.ndjson', traceOf(['breaker', 'saw']));

  test('is the same as from marks', async () => {
    const { truth: _, ...fromMarks } = await json({ truth: marks });
    for (const options of [{ truth: one }, { truth: two, tool: 'breaker' }]) {
      const { truth, ...fromTrace } = await json(options);
      expect(truth).toBe(options.truth);
      expect(fromTrace).toEqual(fromMarks);
    }
  });

  test.each([
    [{ truth: two }, 'several tools run in this trace, name one with --tool: "breaker", "saw"'],
    [{ truth: one, tool: 'drill' }, '"drill" does not run in this trace; those that do: "breaker"'],
    [{ truth: marks, tool: 'drill' }, 'marks are of no tool: --tool goes with a trace'],
    [{ truth: write('none.ndjson', traceOf([])) }, 'no tool runs in this trace'],
    [{ truth: write('torn.ndjson', traceOf(['breaker']).slice(0, 700)) }, 'line'],
  ])('is refused where it cannot be told: %j', async (options, why) => {
    expect(await answer(options)).toContain(`${options.truth}: ${why}`);
  });
});

test('what is asked for must be there', async () => {
  expect(await answer({ truth: 'nowhere.csv' })).toContain('nowhere.csv: the truth cannot be read');
  expect(await answer({ truth: marks, picture: 'x.svg' })).toBe('a picture is of a sweep: give --sweep as well\n');
  expect(await answerDetect('nowhere.wav', { truth: marks })).toEqual({
    refusal: 'nowhere.wav: there is no such file. Look at its name\n',
  });
});
