// Numbers of a record as its tables show them.
import { pointTenths } from '../../exposure/points.js';

interface Rated {
  readonly dose: number;
  readonly points: number | null;
}

/** "120.4", cut off after one decimal; time that was never rated makes no points, and no zero either (MAG-6). */
export function pointsCell({ dose, points }: Rated): string {
  if (points === null) return 'unrated';
  const tenths = pointTenths(dose);
  return tenths === 0 && dose > 0 ? '<0.1' : (tenths / 10).toFixed(1);
}

/** "2.74", rounded. */
export function a8Cell(a8: number | null): string {
  return a8 === null ? 'unrated' : a8.toFixed(2);
}

/** "0:33:20.0", exact: devices count in tenths of a second. */
export function timeCell(ms: number): string {
  const tenths = ms / 100;
  const two = (value: number) => `${Math.floor(value)}`.padStart(2, '0');
  return `${Math.floor(tenths / 36_000)}:${two((tenths / 600) % 60)}:${two((tenths / 10) % 60)}.${tenths % 10}`;
}

export function counted(count: number, what: string, many = `${what}s`): string {
  return `${count} ${count === 1 ? what : many}`;
}
