// Random bits for a device under test: the same for the same identity, so that a failing test fails again.

export function drawsOf(id: number): () => number {
  let state = Math.imul(id, 0x9e3779b1) >>> 0;
  return () => {
    state = (Math.imul(state ^ (state >>> 15), 0x2c1b3c6d) + 0x6d2b79f5) >>> 0;
    return state;
  };
}
