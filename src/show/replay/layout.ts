// Decides what of the replay goes where in a terminal of a given size: which panels there is room for, and how large.
// A frame is one row lower than the terminal, or ink would clear the screen for each frame and flicker.
import { BIG_ROWS } from './big-digits.js';
import { RULER_EXTRA } from './ruler.js';
import { textColumns } from './text-columns.js';

export const LEAST_COLUMNS = 60;
export const LEAST_ROWS = 16;

export interface Wanted {
  /** Size of the terminal. */
  readonly columns: number;
  readonly rows: number;
  readonly workerNames: readonly string[];
  readonly toolNames: readonly string[];
  /** Rows that the longest note takes at this width. */
  readonly noteRows: number;
  /** The class looks at the chart alone: no tools. */
  readonly chartAlone: boolean;
}

export interface Layout {
  /** Width inside the margins, and height of the frame. */
  readonly width: number;
  readonly height: number;
  readonly noteRows: number;
  /** Workers and tools that are listed; the rest is counted in a last row. */
  readonly workers: number;
  readonly tools: number;
  /** Each worker's numbers stand below the ruler, in words, instead of beside it. */
  readonly captions: boolean;
  /** Blank rows before the workers, the tools and the chart. */
  readonly gaps: { readonly workers: boolean; readonly tools: boolean; readonly lower: boolean };
  /** Blank rows between workers. */
  readonly apart: boolean;
  /** Rows left for chart and log; chart 0 columns where there is no room for it. */
  readonly lowerRows: number;
  readonly chartColumns: number;
  readonly logColumns: number;
  /** Room for the longest name, as far as it goes. */
  readonly nameColumns: number;
  readonly toolNameColumns: number;
  readonly rulerCells: number;
}

/** Columns on each side of the frame. */
export const MARGIN = 1;
/** Columns of a worker's mark with its gap. */
export const MARK_COLUMNS = 2;
/** Columns beside a ruler whose numbers stand beside it: points, A(8), left to the EAV, left to the ELV, state. */
export const BESIDE = { points: 7, exposure: 6, action: 8, limit: 5, state: 10 } as const;
/** Columns beside a ruler with a caption below: the points, once more and in plain view. */
export const POINTS_COLUMNS = 7;
const BETWEEN_PANELS = 3;
/** From this width on, the log tells more. */
export const WIDE_LOG_COLUMNS = 48;
const LEAST_CHART_ROWS = 4;
const GOOD_CHART_ROWS = 6;
const ROOMY_CHART_ROWS = 8;
const LARGE_CHART_ROWS = 14;
/** A ruler that is a whole number of fours has its EAV of 100 between two cells, and not within one. */
const RULER_STEP = 4;
const CAUTION_AND_HELP = 2;
const HEAD = 1;

export function layOut(wanted: Wanted): Layout {
  const width = wanted.columns - 2 * MARGIN;
  const height = wanted.rows - 1;
  let free = height - BIG_ROWS - CAUTION_AND_HELP;
  const take = (rows: number): number => {
    const taken = Math.max(0, Math.min(free, rows));
    free -= taken;
    return taken;
  };
  const workers = listed(wanted.workerNames.length, take(wanted.workerNames.length + HEAD));
  const tools = wanted.chartAlone ? 0 : listed(wanted.toolNames.length, take(wanted.toolNames.length + HEAD));
  const noteRows = take(Math.min(wanted.noteRows, Math.max(1, free - LEAST_CHART_ROWS)));
  /** Takes rows for something pleasant, if so many stay for the chart. */
  const spare = (rows: number, stay: number): boolean => free - rows >= stay && take(rows) === rows;
  // Whoever wants the chart alone wants it large.
  const captions = spare(workers, wanted.chartAlone ? LARGE_CHART_ROWS : GOOD_CHART_ROWS);
  const gapWorkers = spare(1, ROOMY_CHART_ROWS);
  const gapLower = spare(1, ROOMY_CHART_ROWS);
  const gapTools = tools > 0 && spare(1, ROOMY_CHART_ROWS);
  const apart = captions && spare(workers - 1, LARGE_CHART_ROWS);
  const columns = columnsOf(width, wanted, captions);
  const chart = free >= LEAST_CHART_ROWS;
  return {
    width,
    height,
    noteRows,
    workers,
    tools,
    captions,
    gaps: { workers: gapWorkers, tools: gapTools, lower: gapLower },
    apart,
    lowerRows: free,
    ...columns,
    chartColumns: chart ? columns.chartColumns : 0,
    logColumns: chart ? columns.logColumns : width,
  };
}

/** How many of so many can be listed in these rows, under a heading, and with a row that counts the rest. */
function listed(count: number, rows: number): number {
  return count + HEAD <= rows ? count : Math.max(0, rows - HEAD - 1);
}

/** Columns for the longest of some names, within bounds. */
function longestOf(names: readonly string[], least: number, most: number): number {
  return Math.max(least, Math.min(most, Math.max(0, ...names.map(textColumns))));
}

function columnsOf(width: number, { workerNames, toolNames }: Wanted, captions: boolean) {
  const narrow = width < 96;
  const nameColumns = longestOf(workerNames, 'worker'.length - MARK_COLUMNS, narrow ? 9 : 18);
  const toolNameColumns = longestOf(toolNames, 'tool'.length, narrow ? 13 : 20);
  const beside = Object.values(BESIDE).reduce((sum, columns) => sum + columns, 0);
  const room = width - MARK_COLUMNS - nameColumns - 2 - RULER_EXTRA - (captions ? POINTS_COLUMNS : beside);
  const rulerCells = Math.max(RULER_STEP, room - (room % RULER_STEP));
  const chartColumns = Math.floor((width - BETWEEN_PANELS) * (narrow ? 0.54 : 0.58));
  return { nameColumns, toolNameColumns, rulerCells, chartColumns, logColumns: width - BETWEEN_PANELS - chartColumns };
}
