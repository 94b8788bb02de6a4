// The byte budget of the frames (TAL-1): every field and its width in bits. A tally, a report and an acknowledgement each
// fit one Bluetooth legacy advertisement with its header (27 bytes). Sums saturate at the widths given here.

export const MAX_FRAME_BYTES = 27;

/** Kind (5 bits) and version (3 bits), link, sequence; then the body; then the tag that seals the frame. */
export const HEADER_BITS = { kindAndVersion: 8, link: 16, sequence: 32 } as const;
export const TAG_BITS = 32;

export const TALLY_BITS = {
  dose: 52,
  triggerWindows: 28,
  unratedWindows: 28,
  magnitudeTenths: 9,
  cell: 2,
  flags: 9,
} as const;

export const REPORT_BITS = {
  shortBursts: 16,
  powerLosses: 16,
  unclaimedDose: 52,
  unclaimedWindows: 28,
  reserved: 16,
} as const;

export const ACKNOWLEDGEMENT_BITS = {
  highest: 32,
  highestReport: 32,
  level: 3,
  closed: 1,
  reserved: 4,
  leftTenths: 16,
} as const;

/** Bytes of a whole frame with this body; a body fills whole bytes or is wrong. */
export function frameBytes(body: Readonly<Record<string, number>>): number {
  const bits = [...Object.values(HEADER_BITS), ...Object.values(body), TAG_BITS].reduce((sum, width) => sum + width, 0);
  if (bits % 8 !== 0) throw new Error(`a frame of ${bits} bits does not fill whole bytes`);
  return bits / 8;
}

/** Largest value of a field of so many bits, up to 53. */
export function largest(bits: number): number {
  return 2 ** bits - 1;
}
