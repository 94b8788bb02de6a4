// How wide the columns of the tools' rows are.
import { type Layout, MARK_COLUMNS } from './layout.js';

export interface ToolColumns {
  readonly name: number;
  readonly state: number;
  readonly owner: number;
  readonly magnitude: number;
  readonly left: number;
  /** One a worker; 0 where there is no room for so many. */
  readonly share: number;
  /** Says what the shares are, where there is room for it. */
  readonly heading: number;
  /** The owner is given by its mark, not by name. */
  readonly ownerByMark: boolean;
}

const MAGNITUDE_COLUMNS = 10;
const LEFT_COLUMNS = 16;
/** "100" and a gap. */
const LEAST_SHARE_COLUMNS = 4;
const MOST_SHARE_COLUMNS = 10;
const STATE_WORDS_COLUMNS = 10;
const LEAST_STATE_COLUMNS = 10;
const LEAST_OWNER_COLUMNS = 4;
const HEADING_COLUMNS = 12;

export function toolColumns({ width, nameColumns }: Layout, workers: number): ToolColumns {
  const name = MARK_COLUMNS + nameColumns;
  const owner = nameColumns + 2;
  const state = nameColumns + STATE_WORDS_COLUMNS;
  const room = width - name - MAGNITUDE_COLUMNS - LEFT_COLUMNS;
  const leastShares = workers * LEAST_SHARE_COLUMNS;
  const withShares = room - LEAST_OWNER_COLUMNS - LEAST_STATE_COLUMNS >= leastShares;
  const forShares = withShares ? leastShares : 0;
  const ownerByMark = room - state - owner < forShares;
  const ownerColumns = ownerByMark ? LEAST_OWNER_COLUMNS : owner;
  const stateColumns = Math.min(state, room - ownerColumns - forShares);
  const left = room - ownerColumns - stateColumns;
  const share = withShares ? Math.min(MOST_SHARE_COLUMNS, Math.floor(left / Math.max(1, workers))) : 0;
  const heading = withShares && left - share * workers >= HEADING_COLUMNS ? HEADING_COLUMNS : 0;
  return {
    name,
    state: stateColumns,
    owner: ownerColumns,
    magnitude: MAGNITUDE_COLUMNS,
    left: LEFT_COLUMNS,
    share,
    heading,
    ownerByMark,
  };
}
