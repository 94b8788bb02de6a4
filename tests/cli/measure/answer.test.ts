// counterproof measure: recordings in, values, findings and a setting out, as text and as JSON.
import { mkdtempSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterAll, describe, expect, test, vi } from 'vitest';
import { answerMeasure, type MeasureOptions } from '../../../src/cli/measure/answer.js';
import { type MeasureOutput, measureOutput } from '../../../src/cli/schemas/measure.js';
import { weightingAt } from '../../../src/vibration/weighting/definition.js';

vi.setConfig({ testTimeout: 60_000 });

const RATE_HZ = 3200;
/** Of z, on the other axes. */
const SIDE = 0.2;
const folder = mkdtempSync(join(tmpdir(), 'counterproof-'));
afterAll(() => rmSync(folder, { recursive: true }));

function write(name: string, content: string): string {
  const path = join(folder, name);
  writeFileSync(path, content);
  return path;
}

/** A sine of 40 Hz on z, a part of it on y, and on x under gravity, unless x is still. */
function recording(name: string, seconds: number, amplitude: number, still = false): string {
  const rows = ['time (s),x (m/s²),y (m/s²),z (m/s²)'];
  for (let at = 0; at < seconds * RATE_HZ; at++) {
    const z = amplitude * Math.sin((2 * Math.PI * 40 * at) / RATE_HZ);
    const x = 9.81 + (still ? 0 : z * SIDE);
    rows.push(`${(at / RATE_HZ).toFixed(7)},${x.toFixed(5)},${(z * SIDE).toFixed(5)},${z.toFixed(5)}`);
  }
  return write(name, `${rows.join('\n')}\n`);
}

/** a_hv of such a recording. */
const sineValue = (amplitude: number) => (amplitude / Math.SQRT2) * weightingAt(40) * Math.sqrt(1 + 2 * SIDE ** 2);

const sheet = write(
  'sheet.yaml',
  `operator: Edda
operation: cutting mortar joints
material: granite
accessory: flat chisel
mounting: hose clamp
place: front handle
calibration: {reference: 10.0, before: 10.1, after: 9.9}
chain uncertainty: 10%
`,
);
const files = [recording('one.csv', 25, 20), recording('two.csv', 22, 22), recording('three.csv', 20, 18)];

async function json(given: readonly string[], options: MeasureOptions): Promise<MeasureOutput> {
  const answer = await answerMeasure(given, { ...options, json: true }, () => {});
  if ('refusal' in answer) throw new Error(answer.refusal);
  return measureOutput.parse(JSON.parse(answer.answer));
}

async function text(given: readonly string[], options: MeasureOptions): Promise<string> {
  const answer = await answerMeasure(given, options, () => {});
  return 'refusal' in answer ? answer.refusal : answer.answer;
}

describe('three recordings with a sheet', () => {
  test('have their values, and a setting that is their energy average, rounded up', async () => {
    const { files: measured, hands, set, sheet: found } = await json(files, { sheet });
    for (const [index, amplitude] of [20, 22, 18].entries()) {
      const { values, sampleRateHz, recommendedMagnitude, findings } = measured[index]!;
      expect(findings).toEqual([]);
      expect(sampleRateHz).toBeCloseTo(RATE_HZ, 3);
      expect(Math.abs(values!.a_hv / sineValue(amplitude) - 1)).toBeLessThan(0.005);
      expect(values!.axes.x!.offset).toBeCloseTo(9.81, 2);
      expect(recommendedMagnitude).toBe(Math.ceil(10 * values!.a_hv) / 10);
    }
    const energy = Math.sqrt((25 * sineValue(20) ** 2 + 22 * sineValue(22) ** 2 + 20 * sineValue(18) ** 2) / 67);
    expect(Math.abs(hands[0]!.a_hv / energy - 1)).toBeLessThan(0.005);
    expect([found.findings, set.findings]).toEqual([[], []]);
    expect(set.recommendedMagnitude).toBe(Math.ceil(10 * hands[0]!.a_hv) / 10);
    expect(set.uncertainty).toBeGreaterThan(0.1 * hands[0]!.a_hv);
  });

  test('are told to a person as a table, a sentence each, and what to set', async () => {
    const said = await text(files, { sheet });
    expect(said).toMatch(/^recording +hand +length +a_hwx +a_hwy +a_hwz +a_hv +greatest second +crest factors\n/);
    expect(said).toMatch(/All samples: a_hv 6\.\d\d m\/s², the energy average of 3 recordings over 67 s, from /);
    expect(said).toMatch(
      /\nSet the counter to [67]\.\d m\/s², rounded up to 0\.1; expanded uncertainty ± \d\.\d m\/s²\.\n/,
    );
    expect(said).toContain('Counterproof is no measuring instrument');
  });
});

describe('left and right', () => {
  const [one, two, three] = files.map((file) => file);
  const hand = [`left=${one}`, `left=${three}`, `right=${two}`];

  test('are both reported, and the higher counts (Directive 2002/44/EC, Annex A.2(b))', async () => {
    const { hands } = await json([], { hand, sheet });
    expect(hands.map(({ hand: which, files: count }) => [which, count])).toEqual([
      ['left', 2],
      ['right', 1],
    ]);
    expect(await text([], { hand, sheet })).toContain('The right hand has the higher value: it counts.');
  });

  test('with too few samples of each, no setting is recommended, and it says why', async () => {
    const { set } = await json([], { hand, sheet });
    expect(set).toMatchObject({ recommendedMagnitude: null, uncertainty: null });
    expect(set.findings[0]?.says).toBe('no setting is recommended, because of: few-samples, short-total');
  });
});

describe('what is in doubt', () => {
  test('without a sheet no setting is recommended', async () => {
    const { set, sheet: found } = await json(files, {});
    expect(found.findings.map(({ what }) => what)).toEqual(['sheet-missing']);
    expect(set.recommendedMagnitude).toBeNull();
  });

  test('a finding of a recording stands with it, and withholds its own value', async () => {
    const { files: measured } = await json([recording('still.csv', 10, 20, true)], { sheet });
    expect(measured[0]).toMatchObject({
      recommendedMagnitude: null,
      findings: [{ what: 'axis-flat', weight: 'doubts' }],
    });
  });

  test('a recording of too low a rate has no value', async () => {
    const slow = write('slow.csv', `x,y,z\n${'1,2,3\n2,1,4\n'.repeat(3000)}`);
    const answer = await answerMeasure([slow], { rate: 1000, json: true }, () => {});
    if ('refusal' in answer) throw new Error(answer.refusal);
    const [file] = measureOutput.parse(JSON.parse(answer.answer)).files;
    expect([answer.allHaveValues, file?.values]).toEqual([false, null]);
    expect(file?.findings.map(({ what }) => what)).toContain('rate-too-low');
  });
});

describe('what cannot be read', () => {
  test.each([
    [[], {}, 'which recordings? Name them, or --hand left=FILE --hand right=FILE\n'],
    [['a.csv'], { hand: ['left=b.csv'] }, 'of a.csv the hand is not told: with --hand, name every file so\n'],
    [[], { hand: ['both=b.csv'] }, '--hand both=b.csv: write left=FILE or right=FILE\n'],
    [['nowhere.csv'], {}, 'nowhere.csv: there is no such file. Look at its name\n'],
    [['a.csv', 'a.csv'], {}, 'a.csv is named twice: a recording is one sample, of one hand\n'],
  ])('%j %j', async (given, options, refusal) => {
    expect(await text(given, options)).toBe(refusal);
  });

  test('a wrong sheet is told of as a compiler tells of it, all at once', async () => {
    const wrong = write(
      'wrong.yaml',
      'operater: Edda\ncalibration: {before: 10, after: nothing}\nchain uncertainty: 200%\n',
    );
    const said = await text(files, { sheet: wrong });
    expect(said).toContain('wrong.yaml:1:1  a measuring sheet has no "operater"');
    expect(said).toContain('a calibration needs "reference"');
    expect(said).toContain('wrong.yaml:2:34');
    expect(said).toContain('wrong.yaml:3:');
  });
});

test('progress goes from nothing to all of a file', async () => {
  const parts: number[] = [];
  await answerMeasure([files[0]!], {}, (_, part) => parts.push(part));
  expect([...parts].sort((a, b) => a - b)).toEqual(parts);
  expect(parts.at(-1)).toBe(1);
});
