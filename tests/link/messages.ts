// Every message that may cross the air, for property tests. Numbers lean towards both ends, where bits are lost.
import fc from 'fast-check';
import { ALERT_LEVELS, REFUSE_REASONS, TALLY_FLAGS } from '../../src/link/messages.js';
import type { ClearMessage, SealedMessage } from '../../src/link/pairing-messages.js';

const ALL_FLAGS = Object.values(TALLY_FLAGS).reduce((all, flag) => all | flag, 0);

const unsigned = (bits: number, min = 0) => fc.maxSafeNat().map((drawn) => Math.max(min, drawn % 2 ** bits));
const number = (bits: number, min = 0) =>
  fc.oneof(
    fc.constantFrom(min, 2 ** bits - 1),
    fc.integer({ min, max: 2 ** Math.min(bits, 31) - 1 }),
    unsigned(bits, min),
  );
const bytes = (length: number) => fc.uint8Array({ minLength: length, maxLength: length });
const identities = { counter: number(16, 1), wearable: number(16, 1) };
const numbered = { link: number(16, 1), sequence: number(32, 1) };

export const tally = fc
  .record({
    frame: fc.constant('tally' as const),
    ...numbered,
    dose: number(52),
    triggerWindows: number(28),
    unratedWindows: number(28),
    magnitudeTenths: fc.oneof(fc.constant(0), fc.integer({ min: 5, max: 500 })),
    cell: fc.integer({ min: 0, max: 3 }),
    flags: fc.nat(ALL_FLAGS),
  })
  .map((drawn) => ({ ...drawn, unratedWindows: Math.min(drawn.unratedWindows, drawn.triggerWindows) }));

export const report = fc.record({
  frame: fc.constant('report' as const),
  ...numbered,
  shortBursts: number(16),
  powerLosses: number(16),
  unclaimedDose: number(52),
  unclaimedWindows: number(28),
});

export const acknowledgement = fc.record({
  frame: fc.constant('ack' as const),
  ...numbered,
  highest: number(32),
  highestReport: number(32),
  level: fc.nat(ALERT_LEVELS.length - 1),
  leftTenths: number(16),
  closed: fc.boolean(),
});

export const accept = fc.record({
  frame: fc.constant('accept' as const),
  link: number(16, 1),
  ...identities,
  by: fc.constantFrom('counter' as const, 'wearable' as const),
});

export const sealedMessage: fc.Arbitrary<SealedMessage> = fc.oneof(tally, report, acknowledgement, accept);

export const clearMessage: fc.Arbitrary<ClearMessage> = fc.oneof(
  fc.record({ frame: fc.constant('hello' as const), ...identities, publicKey: bytes(32) }),
  fc.record({
    frame: fc.constant('answer' as const),
    ...identities,
    link: number(16, 1),
    session: number(32, 1),
    publicKey: bytes(32),
    commitment: bytes(16),
  }),
  fc.record({ frame: fc.constantFrom('nonce' as const, 'reveal' as const), ...identities, nonce: bytes(16) }),
  fc.record({ frame: fc.constant('refuse' as const), ...identities, reason: fc.constantFrom(...REFUSE_REASONS) }),
);

export const secured = fc.record({ key: bytes(16), session: number(32, 1) });
