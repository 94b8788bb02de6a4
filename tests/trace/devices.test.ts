// Identities of devices, as the opening of a trace tells them: those that the bench gave its devices.
import { expect, test } from 'vitest';
import { readPairing } from '../../src/link/frames.js';
import { devicesOf, identityOf, toolOf, workerOf } from '../../src/trace/devices.js';
import { roughTrace } from '../show/capture/rough-air.js';

test('counters come first, wearables after them, each in the order of the scenario; an attacker has none', () => {
  const devices = devicesOf(roughTrace());
  expect(devices).toEqual({ tools: ['breaker', 'größte Säge, 2'], workers: ['Edda', 'Jørun'] });
  expect(['breaker', 'größte Säge, 2', 'Edda', 'Jørun', 'bench'].map((name) => identityOf(devices, name))).toEqual([
    1, 2, 3, 4, 0,
  ]);
  expect([0, 1, 2, 3].map((identity) => toolOf(devices, identity))).toEqual([null, 'breaker', 'größte Säge, 2', null]);
  expect([2, 3, 4, 5].map((identity) => workerOf(devices, identity))).toEqual([null, 'Edda', 'Jørun', null]);
});

test('the frames of a pairing name the same identities', () => {
  const devices = devicesOf(roughTrace());
  const hellos = roughTrace().filter((event) => event.kind === 'air.pairing' && event.frame === 'hello');
  expect(hellos.length).toBeGreaterThan(2);
  for (const hello of hellos) {
    if (hello.kind !== 'air.pairing') continue;
    const message = readPairing(Buffer.from(hello.bytes, 'hex'));
    expect(message).toMatchObject({ wearable: identityOf(devices, hello.by), counter: identityOf(devices, hello.to) });
  }
});
