// A capture of a trace: what became of each frame, and the same bytes every time. tshark reads one back in tshark.test.ts.
import { createHash } from 'node:crypto';
import { expect, test } from 'vitest';
import {
  ACKNOWLEDGEMENT_BITS,
  frameBytes,
  HELLO_BITS,
  KIND_CODES,
  pairingBytes,
  TALLY_BITS,
  VERSION,
} from '../../../src/link/layout.js';
import { captureOf } from '../../../src/show/capture/capture.js';
import { frameText } from '../../../src/show/capture/frame-text.js';
import { sentFrames } from '../../../src/show/capture/sent-frames.js';
import { Recorder } from '../../../src/trace/recorder.js';
import { roughTrace, TITLE } from './rough-air.js';

const ACK = { closed: false, highest: 1, highestReport: 0, leftTenths: 168, level: 1, link: 9, sequence: 1 };

/** The comment of an acknowledgement, after what comes of it: whose cause is the event n. */
function commentAfter(happens: (recorder: Recorder, n: number) => void): string {
  const recorder = new Recorder();
  const n = recorder.add(1000, 'Edda', 'air.ack', 0, { ...ACK, bytes: '00', to: 'saw' });
  happens(recorder, n);
  const [frame] = sentFrames(recorder.events);
  return frameText(frame!);
}

const heard = (recorder: Recorder, cause: number, frame = 'ack') =>
  recorder.add(1005, 'saw', 'air.heard', cause, { frame, from: 'Edda' });
const refused = (recorder: Recorder, cause: number, reason: string) =>
  recorder.add(1005, 'saw', 'air.refused', cause, { frame: 'ack', from: 'Edda', reason });
const lost = (recorder: Recorder, cause: number, reason: string) =>
  recorder.add(1000, 'Edda', 'air.lost', cause, { frame: 'ack', reason, to: 'saw' });

test.each<[string, (recorder: Recorder, n: number) => void]>([
  ['not heard', () => {}],
  ['heard', heard],
  [
    'heard, then heard and refused (replayed)',
    (recorder, n) => {
      heard(recorder, n);
      refused(recorder, heard(recorder, n), 'replayed');
    },
  ],
  ['heard damaged and refused (tag)', (recorder, n) => refused(recorder, heard(recorder, n, 'damaged'), 'tag')],
  ['lost: out of reach', (recorder, n) => lost(recorder, n, 'range')],
  ['lost in the air', (recorder, n) => lost(recorder, n, 'loss')],
  ['kept back by an attacker', (recorder, n) => lost(recorder, n, 'intercepted')],
])('a frame may be %s', (fate, happens) => {
  expect(commentAfter(happens)).toBe(`Edda → saw: ack, 16.8 left; ${fate}`);
});

test('what becomes of one frame is told of no other', () => {
  const recorder = new Recorder();
  const first = recorder.add(1000, 'Edda', 'air.ack', 0, { ...ACK, bytes: '00', to: 'saw' });
  const second = recorder.add(1000, 'bench', 'air.injected', 0, { bytes: '01', how: 'forge', to: 'saw' });
  refused(recorder, heard(recorder, second, 'injected'), 'tag');
  heard(recorder, first);
  expect(sentFrames(recorder.events).map(frameText)).toEqual([
    'Edda → saw: ack, 16.8 left; heard',
    'attacker → saw: forged frame; heard and refused (tag)',
  ]);
});

test('an attacker’s frame is told by what its bytes say of themselves', () => {
  const sequence = 2;
  const link = 513;
  // As src/link/README.md lays a header out: kind and version in a byte, link in two, sequence in four.
  const genuine = (kind: number, length: number) =>
    Buffer.concat([
      Buffer.of((kind << 3) | VERSION, link >> 8, link & 255, 0, 0, 0, sequence),
      Buffer.alloc(length - 7),
    ]);
  const tally = genuine(KIND_CODES.tally, frameBytes(TALLY_BITS)).toString('hex');
  const ack = genuine(KIND_CODES.ack, frameBytes(ACKNOWLEDGEMENT_BITS)).toString('hex');
  const hello = Buffer.alloc(pairingBytes(HELLO_BITS), (KIND_CODES.hello << 3) | VERSION).toString('hex');
  const said = (how: string, bytes: string) => {
    const recorder = new Recorder();
    recorder.add(1000, 'bench', 'air.injected', 0, { bytes, how, to: 'saw' });
    return sentFrames(recorder.events).map(frameText);
  };
  expect(said('replay', tally)).toEqual(['attacker → saw: replay of a tally, sequence 2; not heard']);
  expect(said('replay', ack)).toEqual(['attacker → saw: replay of an ack, sequence 2; not heard']);
  expect(said('alter', tally)).toEqual(['attacker → saw: altered tally, sequence 2; not heard']);
  expect(said('alter', tally.slice(2))).toEqual(['attacker → saw: altered frame; not heard']);
  expect(said('forge', ack)).toEqual(['attacker → saw: forged ack, sequence 2; not heard']);
  expect(said('flood', tally)).toEqual(['attacker → saw: nonsense; not heard']);
  expect(said('middle', hello)).toEqual(['attacker → saw: hello from the middle; not heard']);
});

test('the same day makes the same bytes, and the title is all that may differ', () => {
  const hash = (title: string) => {
    const made = createHash('sha256');
    for (const piece of captureOf(roughTrace(), title).pieces) made.update(piece);
    return made.digest('hex');
  };
  expect(hash(TITLE)).toBe(hash(TITLE));
  expect(hash('Another')).not.toBe(hash(TITLE));
});

test('frames are counted, and those that nobody heard', () => {
  const { frames, unheard } = captureOf(roughTrace(), TITLE);
  const events = roughTrace();
  expect(frames).toBe(events.filter((event) => 'bytes' in event && 'to' in event).length);
  const arrived = new Set(events.filter(({ kind }) => kind === 'air.heard').map(({ cause }) => cause));
  expect(unheard).toBe(frames - arrived.size);
  expect(unheard).toBeGreaterThan(10);
});
