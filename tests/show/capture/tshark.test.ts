// A capture read back by tshark: it finds every frame of the trace, at its time, with its bytes and what became of it.
// Where tshark is not installed, these tests are left out and say so; .ci/run installs it, and sets NEED_TSHARK, so that they
// fail there instead.
import { spawnSync } from 'node:child_process';
import { mkdtempSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterAll, describe, expect, test, vi } from 'vitest';
import { captureOf } from '../../../src/show/capture/capture.js';
import type { TraceEvent } from '../../../src/trace/kinds.js';
import { roughTrace, TITLE } from './rough-air.js';

vi.setConfig({ testTimeout: 60_000 });

const NEEDED = process.env.NEED_TSHARK === '1';
const isThere = spawnSync('tshark', ['--version']).status === 0;
if (!isThere) {
  process.stderr.write(
    '\n!!! tshark is not installed: no capture is read back. Debian has it: apt-get install tshark\n\n',
  );
}

const MIDNIGHT_MS = 24 * 3_600_000;
const FROM_MS = MIDNIGHT_MS - 20 * 60_000;

const folder = mkdtempSync(join(tmpdir(), 'counterproof-'));
afterAll(() => rmSync(folder, { recursive: true }));

/** What tshark says of each packet, a row a packet; more: options of its own. */
function readBack(file: string, fields: readonly string[], ...more: readonly string[]): readonly (readonly string[])[] {
  const words = [
    '-n',
    '-r',
    file,
    '-T',
    'fields',
    '-E',
    'separator=/t',
    ...fields.flatMap((field) => ['-e', field]),
    ...more,
  ];
  // A folder of its own, so that nobody's settings change what it prints.
  const env = { PATH: process.env.PATH, LC_ALL: 'C.UTF-8', HOME: folder, WIRESHARK_CONFIG_DIR: folder };
  const child = spawnSync('tshark', words, { encoding: 'utf8', env, timeout: 50_000 });
  if (child.status !== 0) throw new Error(`tshark ended with ${child.status}: ${child.stderr}`);
  return child.stdout
    .split('\n')
    .slice(0, -1)
    .map((line) => line.split('\t'));
}

test.runIf(NEEDED)('tshark is there', () => {
  expect(isThere, 'NEED_TSHARK is set, and tshark cannot be run').toBe(true);
});

describe.runIf(isThere)('tshark', () => {
  const events = roughTrace();
  const file = join(folder, 'day.pcapng');
  writeFileSync(file, Buffer.concat([...captureOf(events, TITLE).pieces]));
  const sent = events.filter((event) => event.kind.startsWith('air.') && 'bytes' in event) as Sent[];

  test('finds every frame, at its time, as long as it was, with its bytes behind the identities', () => {
    // In the order in which the scenario names tools, then workers; an attacker has none.
    const identities: Readonly<Record<string, string>> = {
      ...{ bench: '0000', breaker: '0001', 'größte Säge, 2': '0002', Edda: '0003', Jørun: '0004' },
    };
    const rows = readBack(file, ['frame.number', 'frame.time_epoch', 'frame.len', 'frame.cap_len', 'data.data']);
    expect(sent.length).toBeGreaterThan(300);
    expect(rows).toEqual(
      sent.map(({ at, by, to, bytes }, index) => {
        const length = `${bytes.length / 2 + 4}`;
        const ms = FROM_MS + at;
        const seconds = `${Math.floor(ms / 1000)}.${`${ms % 1000}`.padStart(3, '0')}000000`;
        return [`${index + 1}`, seconds, length, length, `${identities[by]}${identities[to]}${bytes}`];
      }),
    );
  });

  test('finds who said what to whom, and what became of it', () => {
    const comments = readBack(file, ['frame.comment']).map(([comment = '']) => comment);
    expect(comments.length).toBe(sent.length);
    for (const [index, { kind, by, to }] of sent.entries()) {
      const who = kind === 'air.injected' ? 'attacker' : by;
      expect(comments[index]).toMatch(new RegExp(`^${who} → ${to}: [a-z].*; [a-z]`));
    }
    const fates = comments.map((comment) => comment.slice(comment.lastIndexOf('; ') + 2));
    expect(counts(fates.filter((fate) => fate.startsWith('lost') || fate.startsWith('kept')))).toEqual({
      'lost: out of reach': count(({ reason }) => reason === 'range'),
      'lost in the air': count(({ reason }) => reason === 'loss'),
      'kept back by an attacker': count(({ reason }) => reason === 'intercepted'),
    });
    expect(fates.join().split('heard damaged').length - 1).toBe(
      count(({ frame, kind }) => kind === 'air.heard' && frame === 'damaged'),
    );
    expect(fates.join().split('and refused (').length - 1).toBe(count(({ kind }) => kind === 'air.refused'));
    expect(fates.join().split(/(?<!not )heard/).length - 1).toBe(count(({ kind }) => kind === 'air.heard'));
    // Each of them is there to be found.
    for (const fate of [
      'heard',
      'not heard',
      'heard, then heard',
      'lost in the air',
      'heard damaged and refused (tag)',
    ]) {
      expect(fates).toContain(fate);
    }
    const tally = comments.find((comment) => comment.startsWith('breaker → Edda: tally, 1.6 points; '));
    expect(tally).toBeDefined();
    expect(comments).toContain('attacker → größte Säge, 2: hello from the middle; heard');
  });

  test('finds one interface of user-defined frames, and takes the identities off where it is told to', () => {
    const [first = []] = readBack(file, ['frame.interface_name', 'frame.interface_description', 'frame.encap_type']);
    expect(first.slice(0, 2)).toEqual([
      'air',
      'between counters and wearables, 4 bytes of identities before each frame',
    ]);
    expect(
      readBack(file, ['frame.interface_id', 'frame.encap_type']).every((row) => row.join() === `0,${first[2]}`),
    ).toBe(true);
    // As src/link/README.md says.
    const table = 'uat:user_dlts:"User 0 (DLT=147)","data","4","","0",""';
    const rows = readBack(file, ['data.data'], '-o', table);
    expect(rows.map(([data = '']) => data.split(',')[1])).toEqual(sent.map(({ bytes }) => bytes));
  });

  test('finds nothing malformed, and no packet out of order', () => {
    expect(readBack(file, ['frame.number'], '-Y', '_ws.malformed || frame.time_delta < 0')).toEqual([]);
  });

  type Sent = Extract<TraceEvent, { bytes: string; to: string }>;

  function count(isMeant: (event: { kind: string; reason?: unknown; frame?: unknown }) => boolean): number {
    return events.filter(isMeant).length;
  }

  function counts(words: readonly string[]): Readonly<Record<string, number>> {
    const found: Record<string, number> = {};
    for (const word of words) found[word] = (found[word] ?? 0) + 1;
    return found;
  }
});
