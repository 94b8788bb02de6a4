// Words that a scenario may use, for tests of the language alone: as many as the tests and scenarios/README.md speak of.
import type { Words } from '../../src/scenario/words.js';

export const WORDS: Words = {
  requirements: ['MAG-1', 'PAI-3', 'TAL-3', 'KEP-1'],
  kinds: ['hand.start', 'hand.stop', 'hand.return', 'air.tally', 'air.refused'],
  levels: ['notice', 'action', 'site', 'limit'],
  frames: ['tally', 'report', 'ack'],
  refusals: ['tag', 'replayed'],
  counter: {
    screens: ['ready', 'setting'],
    icons: ['running', 'unclaimed'],
    regions: { trigger: ['stopped', 'running'], panel: ['resting'] },
  },
  wearable: { screens: ['points', 'closed'], icons: ['stale'], regions: { shift: ['open', 'closed'] } },
};
