import { describe, expect, it } from 'vitest';
import { Source } from '../../src/scenario/source.js';

function excerptOf(text: string, marked: string) {
  const start = text.indexOf(marked);
  return new Source('x.yaml', text).excerpt({ start, end: start + marked.length });
}

describe('Source', () => {
  it('counts lines and columns from 1, with LF and CRLF', () => {
    for (const end of ['\n', '\r\n']) {
      const source = new Source('x.yaml', `a: 1${end}bc: 2${end}`);
      expect(source.place(0)).toEqual({ file: 'x.yaml', line: 1, column: 1 });
      expect(source.place(source.text.indexOf('2'))).toEqual({ file: 'x.yaml', line: 2, column: 5 });
      expect(source.place(source.text.length)).toEqual({ file: 'x.yaml', line: 3, column: 1 });
    }
  });

  it('counts characters, not UTF-16 units', () => {
    const text = 'a: 🪨🪨 stone';
    expect(new Source('x.yaml', text).place(text.indexOf('stone')).column).toBe(7);
    expect(excerptOf(text, 'stone')).toEqual({ text, column: 7, width: 5 });
  });

  it('shows the line without its end and marks no further', () => {
    expect(excerptOf('a: [1,\r\n  2]', '[1,\r\n  2]')).toEqual({ text: 'a: [1,', column: 4, width: 3 });
  });

  it('shows the surroundings of a place in a long line', () => {
    const { text, column, width } = excerptOf(`${'a'.repeat(5000)}HERE${'b'.repeat(5000)}`, 'HERE');
    expect(text.slice(column - 1, column - 1 + width)).toBe('HERE');
    expect(text.length).toBeLessThanOrEqual(112);
    expect(text.startsWith('…') && text.endsWith('…')).toBe(true);
  });

  it('lets nothing through that would reach the terminal', () => {
    expect(excerptOf('a:\t\u001b[31m\u202eX', 'X').text).toBe('a: \ufffd[31m\ufffdX');
  });
});
