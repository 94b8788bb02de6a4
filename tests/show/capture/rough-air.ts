// A short day with everything that can become of a frame: lost, doubled, damaged, out of reach, sent to somebody without power,
// said by an attacker, kept back by one.
import { Bench } from '../../../src/bench/bench.js';
import { scenarioWords } from '../../../src/cli/scenario/words.js';
import { readScenario } from '../../../src/scenario/read.js';
import type { TraceEvent } from '../../../src/trace/kinds.js';

export const TITLE = 'Rough air — for a capture';

const ROUGH = `title: ${TITLE}
seed: 5
regime: eu-2002-44
from: 23:40
until: day 2 01:30
tools:
  breaker: {hand: percussive, magnitude: 12.0, keyed: 12.0}
  "größte Säge, 2": {hand: rotary, magnitude: 6.0, keyed: 6.0}
workers: {Edda: {}, Jørun: {}}
day:
  - {at: 23:41, pair: breaker, with: Edda}
  - {at: 23:43, pair: "größte Säge, 2", with: Jørun}
  - {at: 23:45, work: breaker, by: Edda, bursts: 10, of: 20s, every: 1m}
  - {at: 23:46, work: "größte Säge, 2", by: Jørun, bursts: 5, of: 20s, every: 1m}
  - {at: 23:47, air: [breaker, Edda], loss: 1/4, duplicate: 1/3, errors: 1/4, delay: [2ms, 3s], for: 8m}
  - {at: 23:56, leave: Edda, for: 4m}
  - {at: day 2 00:02, work: breaker, by: Edda, bursts: 5, of: 20s, every: 1m}
  - {at: day 2 00:02, attack: [breaker, Edda], how: replay, frame every: 20s, for: 4m}
  - {at: day 2 00:02, attack: [breaker, Edda], how: flood, frame every: 20s, for: 4m}
  - {at: day 2 00:10, cut: Edda, for: 3m}
  - {at: day 2 00:20, attack: ["größte Säge, 2", Edda], how: middle, for: 5m}
  - {at: day 2 00:21, pair: "größte Säge, 2", with: Edda}
expect: []
`;

export function roughTrace(): readonly TraceEvent[] {
  const reading = readScenario(ROUGH, 'rough.yaml', scenarioWords());
  if (!reading.ok) throw new Error(reading.problems.map(({ message }) => message).join('; '));
  const bench = Bench.open(reading.scenario.runs[0]!.day);
  bench.run();
  return bench.events;
}
