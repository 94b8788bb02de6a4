import { renderToString } from 'ink';
import { describe, expect, it, vi } from 'vitest';
import { Frame } from '../../../src/show/replay/Frame.js';
import { AT_START } from '../../../src/show/replay/player.js';
import { HOUR } from '../../trace/made-day.js';
import { crowd } from './crowd.js';

// Before chalk is loaded: colours are wanted here although this is no terminal.
vi.hoisted(() => {
  process.env.FORCE_COLOR = '3';
});

// biome-ignore lint/suspicious/noControlCharactersInRegex: escape sequences begin with one
const STYLES = /\x1b\[([\d;]*)m/g;
/** Red, green and yellow, dark and bright, as text and as ground. */
const TRAFFIC_LIGHT = ['31', '32', '33', '41', '42', '43', '91', '92', '93', '101', '102', '103'];

describe('colours', () => {
  const reel = crowd({ workers: 6, tools: 8, notes: true });
  const drawn = [0, HOUR / 2, 8 * HOUR].map((atMs) => {
    const player = { ...AT_START, atMs };
    return renderToString(<Frame reel={reel} player={player} columns={160} rows={50} />, { columns: 160 });
  });
  const styles = new Set(drawn.flatMap((text) => [...text.matchAll(STYLES)].map((match) => match[1] ?? '')));

  it('are used', () => {
    expect(styles).toContain('36');
    expect(styles.size).toBeGreaterThan(4);
  });

  it('are never those of a traffic light, nor any beyond the terminal’s own sixteen', () => {
    for (const style of styles) {
      expect(TRAFFIC_LIGHT).not.toContain(style);
      expect(style).not.toMatch(/^[34]8;/);
    }
  });
});
