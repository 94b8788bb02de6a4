// A sweep as a picture, for a projector: how many seconds each setting counts wrongly. Two fields of cells: levels, at the best
// delays, and delays, at the best levels. Each cell says its number, so that its shade is not all that carries it.
import { DETECTOR_DEFAULTS, type DetectorSettings } from '../../counter/detector.js';
import { type Sweep, type Tried, wrongMs } from './sweep.js';

const WIDTH = 1280;
const HEIGHT = 720;
const CELL_HEIGHT = 38;
const TOP = 150;

type Setting = keyof DetectorSettings;

/** Two settings against each other, the others as in the best. */
interface Field {
  readonly across: Setting;
  readonly up: Setting;
  readonly acrossLabel: string;
  readonly upLabel: string;
  readonly text: (value: number) => string;
  readonly left: number;
  readonly width: number;
}

const FIELDS: readonly Field[] = [
  {
    across: 'onLevelMm',
    up: 'offLevelMm',
    acrossLabel: 'on level, m/s²',
    upLabel: 'off level, m/s²',
    text: (mm) => `${mm / 1000}`,
    left: 110,
    width: 720,
  },
  {
    across: 'startAfter',
    up: 'stopAfter',
    acrossLabel: 'start after, windows',
    upLabel: 'stop after, windows',
    text: (windows) => `${windows}`,
    left: 950,
    width: 280,
  },
];

/** SVG. name: of the recording, put into the title. */
export function sweepPicture(name: string, sweep: Sweep): string {
  const most = Math.max(1, ...sweep.tried.map(({ error }) => wrongMs(error)));
  const lines = [
    `<svg xmlns="http://www.w3.org/2000/svg" viewBox="0 0 ${WIDTH} ${HEIGHT}" font-family="sans-serif" role="img">`,
    `<title>${escaped(`Seconds wrongly counted or missed in ${name}, by setting of the detector`)}</title>`,
    `<rect width="${WIDTH}" height="${HEIGHT}" fill="#ffffff"/>`,
    label(40, 54, 30, `Seconds wrongly counted or missed: ${name}`, 'start', 'bold'),
    label(40, 92, 22, `best, thick frames: ${settingText(sweep.best)}`),
    label(40, 122, 22, `as it is, dashed frames: ${settingText(sweep.byDefault)}`),
    ...FIELDS.flatMap((field) => fieldLines(field, sweep, most)),
    '</svg>',
  ];
  return `${lines.join('\n')}\n`;
}

function fieldLines(field: Field, { tried, best }: Sweep, most: number): readonly string[] {
  const { across, up, left, width } = field;
  const rest = (Object.keys(best.settings) as Setting[]).filter((setting) => setting !== across && setting !== up);
  const shown = tried.filter(({ settings }) => rest.every((setting) => settings[setting] === best.settings[setting]));
  const columns = valuesOf(shown, across);
  const rows = valuesOf(shown, up).reverse();
  const cell = width / columns.length;
  const bottom = TOP + rows.length * CELL_HEIGHT;
  const xOf = (settings: DetectorSettings) => left + columns.indexOf(settings[across]) * cell;
  const yOf = (settings: DetectorSettings) => TOP + rows.indexOf(settings[up]) * CELL_HEIGHT;
  const frame = (settings: DetectorSettings, style: string) =>
    columns.includes(settings[across]) && rows.includes(settings[up])
      ? [box(xOf(settings), yOf(settings), cell, `fill="none" stroke="#000000" ${style}`)]
      : [];
  return [
    ...shown.flatMap((one) => cellLines(one, xOf(one.settings), yOf(one.settings), cell, most)),
    ...frame(DETECTOR_DEFAULTS, 'stroke-width="3" stroke-dasharray="7 5"'),
    ...frame(best.settings, 'stroke-width="6"'),
    ...columns.map((value, at) => label(left + (at + 0.5) * cell, bottom + 26, 18, field.text(value), 'middle')),
    ...rows.map((value, at) => label(left - 10, TOP + (at + 0.5) * CELL_HEIGHT + 6, 18, field.text(value), 'end')),
    label(left + width / 2, bottom + 60, 22, field.acrossLabel, 'middle'),
    turned(left - 66, (TOP + bottom) / 2, field.upLabel),
  ];
}

function valuesOf(tried: readonly Tried[], setting: Setting): number[] {
  return [...new Set(tried.map(({ settings }) => settings[setting]))].sort((a, b) => a - b);
}

/** White where nothing is wrong, dark where most is; by the root, so that small errors differ in shade, too. */
function cellLines({ error }: Tried, x: number, y: number, width: number, most: number): readonly string[] {
  const part = Math.sqrt(wrongMs(error) / most);
  const [red, green, blue] = [255 - 235 * part, 255 - 195 * part, 255 - 145 * part].map(Math.round);
  const ink = part > 0.7 ? '#ffffff' : '#000000';
  const shade = `fill="rgb(${red},${green},${blue})" stroke="#8a8a8a" stroke-width="1"`;
  const text = secondsText(wrongMs(error));
  return [box(x, y, width, shade), label(x + width / 2, y + 25, 17, text, 'middle', 'normal', ink)];
}

/** "0.4", "37", "12k" */
function secondsText(ms: number): string {
  const seconds = ms / 1000;
  if (seconds < 9.95) return seconds.toFixed(1);
  return seconds < 9999.5 ? `${Math.round(seconds)}` : `${Math.round(seconds / 1000)}k`;
}

function settingText({ settings, error }: Tried): string {
  const { onLevelMm, offLevelMm, startAfter, stopAfter } = settings;
  const bursts = `${error.missedBursts} bursts missed, ${error.falseBursts} false`;
  const levels = `on ${onLevelMm / 1000}, off ${offLevelMm / 1000} m/s²`;
  return `${levels}, start after ${startAfter}, stop after ${stopAfter}: ${secondsText(wrongMs(error))} s, ${bursts}`;
}

function box(x: number, y: number, width: number, style: string): string {
  return `<rect x="${place(x)}" y="${place(y)}" width="${place(width)}" height="${CELL_HEIGHT}" ${style}/>`;
}

function label(
  x: number,
  y: number,
  size: number,
  text: string,
  anchor: 'start' | 'middle' | 'end' = 'start',
  weight: 'normal' | 'bold' = 'normal',
  ink = '#000000',
): string {
  const at = `x="${place(x)}" y="${place(y)}"`;
  return `<text ${at} font-size="${size}" font-weight="${weight}" text-anchor="${anchor}" fill="${ink}">${escaped(text)}</text>`;
}

function turned(x: number, y: number, text: string): string {
  return `<g transform="translate(${place(x)} ${place(y)}) rotate(-90)">${label(0, 0, 22, text, 'middle')}</g>`;
}

function place(pixels: number): number {
  return Math.round(pixels * 10) / 10;
}

/** What SVG takes as text: nothing that could be read as markup, and no control characters. */
function escaped(text: string): string {
  return text
    .replace(/\p{Cc}/gu, ' ')
    .replaceAll('&', '&amp;')
    .replaceAll('<', '&lt;')
    .replaceAll('>', '&gt;')
    .replaceAll('"', '&quot;');
}
