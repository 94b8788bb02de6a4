import { expect, it } from 'vitest';
import { airGroups } from '../../../src/show/replay/air-groups.js';
import { frameWord, senderWord } from '../../../src/show/words.js';
import { BEFORE, momentAfter } from '../../../src/trace/moment.js';
import { MadeDay, MINUTE } from '../../trace/made-day.js';

it('puts what the devices lost before what arrived, and an attacker’s frames last, each sort by itself', () => {
  const day = new MadeDay({ saw: 60 }, ['Edda']).pair(0, 'saw', 'Edda').work(1000, 'saw', 'Edda', 10_000);
  day.leave(20_000, 'Edda', MINUTE).work(30_000, 'saw', 'Edda', 5000);
  ['forge', 'flood', 'forge'].forEach((how, index) => {
    day.step(40_000 + index, (recorder, at) => {
      const n = recorder.add(at, 'bench', 'air.injected', 0, { bytes: '00', how, to: 'Edda' });
      const heard = recorder.add(at, 'Edda', 'air.heard', n, { frame: 'injected', from: 'bench' });
      recorder.add(at, 'Edda', 'air.refused', heard, { frame: 'injected', from: 'bench', reason: 'tag' });
    });
  });
  const { air } = day.events().reduce(momentAfter, BEFORE);
  const groups = airGroups(air).map(({ frame: { sent, fate }, count }) => {
    return `${senderWord(sent)} ${frameWord(sent)} ${fate} ×${count}`;
  });
  expect(groups).toEqual([
    'saw tally lost ×1',
    'saw tally heard ×2',
    'attacker forged frame refused ×2',
    'attacker nonsense refused ×1',
    'Edda ack heard ×2',
  ]);
});
