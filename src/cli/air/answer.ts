// What `counterproof air` writes: the capture of a scenario's run.
import { Bench } from '../../bench/bench.js';
import { type Capture, captureOf } from '../../show/capture/capture.js';
import { type Pick, pickRun, type Refusal } from '../scenario/pick-run.js';

export function answerAir(file: string, pick: Pick): Capture | Refusal {
  const picked = pickRun(file, pick);
  if ('refusal' in picked) return picked;
  const { run, scenario } = picked;
  const bench = Bench.open(run.day);
  bench.run();
  const words = [
    run.row === '' ? [] : [`row ${run.row}`],
    run.whatIf === null ? [] : [`what if: ${run.whatIf}`],
  ].flat();
  return captureOf(bench.events, words.length === 0 ? scenario.title : `${scenario.title} (${words.join(', ')})`);
}
