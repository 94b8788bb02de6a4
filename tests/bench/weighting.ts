// What the weighting of three axes costs, beside a plain loop that copies them.
import { designWeighting } from '../../src/vibration/weighting/design.js';
import { noSquares, type Samples, WeightingFilter } from '../../src/vibration/weighting/filter.js';

const RATE_HZ = 25_600;
/** Four seconds: what is taken at a time in a measurement is of this order. */
const FRAMES = 4 * RATE_HZ;
const ROUNDS = 40;

export function weightingLines(): readonly string[] {
  const axis = (turn: number) => Float64Array.from({ length: FRAMES }, (_, at) => Math.sin(at * turn));
  const samples: Samples = { x: axis(0.1), y: axis(0.2), z: axis(0.3) };
  const copy = { x: new Float64Array(FRAMES), y: new Float64Array(FRAMES), z: new Float64Array(FRAMES) };
  const filter = new WeightingFilter(designWeighting(RATE_HZ));
  const rows: readonly (readonly [what: string, run: () => void])[] = [
    ['a loop that copies three axes', () => copyLoop(samples, copy)],
    ['W_h and band limits over three axes', () => filter.pass(samples, 0, FRAMES, noSquares())],
  ];
  return [
    `Four seconds at ${RATE_HZ} Hz; ${ROUNDS} rounds; ns a sample and axis.`,
    `${'what'.padEnd(38)}${'median'.padStart(10)}${'best'.padStart(9)}${'worst'.padStart(9)}`,
    ...rows.map(([what, run]) => line(what, run)),
  ];
}

function line(what: string, run: () => void): string {
  for (let warm = 0; warm < ROUNDS; warm++) run();
  const costs = Array.from({ length: ROUNDS }, () => {
    const start = process.hrtime.bigint();
    run();
    return Number(process.hrtime.bigint() - start) / FRAMES / 3;
  }).sort((a, b) => a - b);
  const [best, median, worst] = [costs[0]!, costs[ROUNDS / 2]!, costs[ROUNDS - 1]!];
  return what.padEnd(38) + median.toFixed(2).padStart(10) + best.toFixed(2).padStart(9) + worst.toFixed(2).padStart(9);
}

function copyLoop(from: Samples, to: Samples): void {
  for (let at = 0; at < from.x.length; at++) {
    to.x[at] = from.x[at]!;
    to.y[at] = from.y[at]!;
    to.z[at] = from.z[at]!;
  }
}
