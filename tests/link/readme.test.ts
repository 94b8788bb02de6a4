// src/link/README.md is the wire format: its tables are layout.ts, and its examples are what the codec makes.
import { describe, expect, test } from 'vitest';
import { CHIP, NO_KEYS } from '../../src/link/cipher.js';
import { FRAME_REFUSALS, openMessage, readPairing, sealMessage, writePairing } from '../../src/link/frames.js';
import { CLEAR, SEALED } from '../../src/link/kinds.js';
import * as layouts from '../../src/link/layout.js';
import { ALERT_LEVELS, FRAMES, REFUSE_REASONS, TALLY_FLAGS } from '../../src/link/messages.js';
import { commitmentOf, comparisonDigits, sessionKey } from '../../src/link/pairing.js';
import type { ClearMessage, SealedMessage } from '../../src/link/pairing-messages.js';
import { hex, toHex } from './hex.js';
import { packed } from './packer.js';
import { examples, type Line, README, tableOf } from './readme.js';

const BODIES: Readonly<Record<string, layouts.Layout>> = {
  tally: layouts.TALLY_BITS,
  report: layouts.REPORT_BITS,
  ack: layouts.ACKNOWLEDGEMENT_BITS,
  accept: layouts.ACCEPT_BITS,
  hello: layouts.HELLO_BITS,
  answer: layouts.ANSWER_BITS,
  nonce: layouts.PAIRING_NONCE_BITS,
  reveal: layouts.PAIRING_NONCE_BITS,
  refuse: layouts.REFUSE_BITS,
};

describe('its tables', () => {
  test.each<[string, layouts.Layout]>([
    ['Header', layouts.HEADER_BITS],
    ['Tally', layouts.TALLY_BITS],
    ['Report', layouts.REPORT_BITS],
    ['Acknowledgement', layouts.ACKNOWLEDGEMENT_BITS],
    ['Accept', layouts.ACCEPT_BITS],
    ['How they are sealed', layouts.NONCE_BITS],
    ['Pairing header', layouts.PAIRING_HEADER_BITS],
    ['Hello', layouts.HELLO_BITS],
    ['Answer', layouts.ANSWER_BITS],
    ['Nonce and reveal', layouts.PAIRING_NONCE_BITS],
    ['Refuse', layouts.REFUSE_BITS],
    ['What is computed', layouts.TRANSCRIPT_BITS],
  ])('%s', (heading, layout) => {
    const rows = tableOf(heading, 'field').map(({ field, bits }) => [field, Number(bits)]);
    expect(rows).toEqual(Object.entries(layout));
  });

  test('kinds', () => {
    const rows = tableOf('What crosses', 'frame');
    expect(rows.map(({ frame, code }) => [frame, Number(code)])).toEqual(Object.entries(layouts.KIND_CODES));
    expect(new Set(Object.values({ ...SEALED, ...CLEAR }).map(({ frame }) => frame))).toEqual(new Set(FRAMES));
    for (const { frame, code, 'first byte': first, from, bytes, 'protected by': protectedBy } of rows) {
      const kind = { ...SEALED, ...CLEAR }[frame as keyof typeof layouts.KIND_CODES];
      expect(first).toBe(toHex(packed(layouts.PAIRING_HEADER_BITS, { kind: Number(code), version: layouts.VERSION })));
      expect(Number(bytes)).toBe(kind.bytes);
      expect(protectedBy).toBe(kind.sealed ? 'key' : 'CRC-32');
      if (kind.sealed) expect(from).toBe(['counter', 'wearable'][kind.direction]);
    }
  });

  test('flags, levels, reasons', () => {
    const flags = tableOf('Tally', 'flag').map(({ flag, value }) => [flag, Number(value)]);
    expect(flags).toEqual(Object.entries(TALLY_FLAGS));
    const level = tableOf('Acknowledgement', 'field').find(({ field }) => field === 'level')!;
    expect(level.meaning).toContain(ALERT_LEVELS.map((name, index) => `${index} ${name}`).join(', '));
    expect(level.range).toBe(`0 to ${ALERT_LEVELS.length - 1}`);
    const reason = tableOf('Refuse', 'field').find(({ field }) => field === 'reason')!;
    expect(reason.meaning).toBe(REFUSE_REASONS.map((name, index) => `${index} ${name}`).join(', '));
    expect(reason.range).toBe(`0 to ${REFUSE_REASONS.length - 1}`);
  });

  test('refusals', () => {
    const reasons = tableOf('What is refused, and why', 'step').map(({ reason }) => reason);
    expect([...new Set(reasons)].sort()).toEqual([...FRAME_REFUSALS].sort());
  });
});

describe('its example of a pairing', () => {
  const bytes = new Map(tableOf('Examples', 'what').map(({ what, bytes }) => [what, hex(bytes!)]));
  const given = (what: string) => bytes.get(what)!;
  const ids = { counter: 3, wearable: 9, link: 0x1234, session: 7 };
  const transcript = {
    ...ids,
    counterKey: given("the counter's public key"),
    wearableKey: given("the wearable's public key"),
    counterNonce: given("the counter's nonce"),
    wearableNonce: given("the wearable's nonce"),
  };

  test('public keys, secret, commitment, key', () => {
    const { counterKey, wearableKey, counterNonce } = transcript;
    expect(CHIP.publicKey(given("the counter's secret key"))).toEqual(counterKey);
    expect(CHIP.publicKey(given("the wearable's secret key"))).toEqual(wearableKey);
    const shared = given('shared secret');
    expect(CHIP.agree(given("the counter's secret key"), wearableKey)).toEqual(shared);
    expect(CHIP.agree(given("the wearable's secret key"), counterKey)).toEqual(shared);
    expect(toHex(commitmentOf(CHIP, counterKey, wearableKey, counterNonce))).toBe(toHex(given('commitment')));
    expect(toHex(sessionKey(CHIP, shared, transcript))).toBe(toHex(given('key')));
  });

  test('digits', () => {
    expect(README).toContain(`Both show **${String(comparisonDigits(CHIP, transcript)).padStart(4, '0')}**.`);
    expect(README).toContain('Counter 3, wearable 9, link 4660 (1234), session 7.');
  });

  test('every kind has its example', () => {
    const shown = examples().map(({ frame }) => Number.parseInt(frame[0]!.digits, 16) >>> 3);
    expect(shown.sort((a, b) => a - b)).toEqual(Object.values(layouts.KIND_CODES));
  });

  const secured = { key: given('key'), session: ids.session };
  const [sealed, clear] = [
    examples().filter(({ body }) => body !== null),
    examples().filter(({ body }) => body === null),
  ];

  test.each(sealed.map((example) => [example.name, example] as const))('%s', (_, { message, nonce, body, frame }) => {
    const sent = hex(digitsOfLines(frame));
    expect(toHex(sealMessage(CHIP, secured, message as unknown as SealedMessage))).toBe(toHex(sent));
    expect(openMessage(CHIP, secured, sent)).toEqual(message);
    const layout = BODIES[String(message.frame)]!;
    const clearBody = sealMessage(NO_KEYS, secured, message as unknown as SealedMessage).slice(7, -4);
    expect(digitsOfLines(body!)).toBe(toHex(clearBody));
    expectLines(body!, layout);
    expectLines(frame, { ...layouts.HEADER_BITS, body: layouts.bytesOf(layout) * 8, tag: layouts.TAG_BITS });
    const direction = message.frame === 'ack' || message.by === 'wearable' ? 1 : 0;
    const sequence = Number(message.sequence ?? 0);
    expect(nonce).toBe(toHex(packed(layouts.NONCE_BITS, { direction, ...ids, sequence })));
  });

  test.each(clear.map((example) => [example.name, example] as const))('%s', (_, { message, frame }) => {
    const fields = Object.entries(message).map(([field, value]) => [
      field,
      ['publicKey', 'nonce', 'commitment'].includes(field) ? hex(String(value)) : value,
    ]);
    const sent = hex(digitsOfLines(frame));
    const said = Object.fromEntries(fields) as ClearMessage;
    expect(toHex(writePairing(said))).toBe(toHex(sent));
    expect(readPairing(sent)).toEqual(said);
    const layout = BODIES[String(message.frame)]!;
    expectLines(frame, { ...layouts.PAIRING_HEADER_BITS, ...layout, checksum: layouts.CHECKSUM_BITS });
    // All examples are of one pairing.
    for (const field of ['publicKey', 'nonce', 'commitment'] as const) {
      if (field in said) expect([...bytes.values()]).toContainEqual(said[field as keyof ClearMessage]);
    }
  });
});

test('its sealed frames have the nonce’s direction as its table says', () => {
  const { value } = tableOf('How they are sealed', 'field').find(({ field }) => field === 'direction')!;
  const from = (direction: number) =>
    Object.entries(SEALED)
      .filter(([, kind]) => kind.direction === direction)
      .map(([name]) => name)
      .join(', ');
  expect(value).toBe(`0 from the counter (${from(0)}), 1 from the wearable (${from(1)})`);
});

function digitsOfLines(lines: readonly Line[]): string {
  return lines.map(({ digits }) => digits).join('');
}

/** Each line shows as many digits as its fields have, and all fields are there, in order. */
function expectLines(lines: readonly Line[], layout: layouts.Layout): void {
  expect(lines.flatMap(({ fields }) => fields)).toEqual(Object.keys(layout));
  for (const { digits, fields } of lines) {
    expect(digits.length * 4).toBe(fields.reduce((sum, field) => sum + layout[field]!, 0));
  }
}
