// Digits three rows high, made of half blocks, so that the clock is found at once from the back of a room.

export const BIG_ROWS = 3;

const SHAPES: Readonly<Record<string, readonly [string, string, string]>> = {
  '0': ['█▀█', '█ █', '▀▀▀'],
  '1': ['▄█ ', ' █ ', '▀▀▀'],
  '2': ['▀▀█', '█▀▀', '▀▀▀'],
  '3': ['▀▀█', '▀▀█', '▀▀▀'],
  '4': ['█ █', '▀▀█', '  ▀'],
  '5': ['█▀▀', '▀▀█', '▀▀▀'],
  '6': ['█▀▀', '█▀█', '▀▀▀'],
  '7': ['▀▀█', '  █', '  ▀'],
  '8': ['█▀█', '█▀█', '▀▀▀'],
  '9': ['█▀█', '▀▀█', '▀▀▀'],
  ':': ['▄', '▄', ' '],
};

/** The rows of a text of digits and colons. Throws on anything else. */
export function bigRows(text: string): readonly string[] {
  const shapes = [...text].map((character) => {
    const shape = SHAPES[character];
    if (shape === undefined) throw new Error(`no big shape for "${character}"`);
    return shape;
  });
  return Array.from({ length: BIG_ROWS }, (_, row) => shapes.map((shape) => shape[row]).join(' '));
}
