// What both sides of a pairing compute from the frames that crossed (PAI-1): the four digits that the person compares.

/** 0..9999, from the two nonces of a transcript (32 bits each). Keys and a commitment come in around this. */
export function comparisonDigits(wearableNonce: number, counterNonce: number): number {
  return ((wearableNonce ^ Math.imul(counterNonce, 0x9e3779b1)) >>> 0) % 10_000;
}
