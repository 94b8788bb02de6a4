// How wide the columns of the tools' rows are.
import type { Layout } from './layout.js';

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
/** "100 min to notice" would be cut off; nobody counts minutes then. */
const LEFT_COLUMNS = 17;
/** "100" and a gap. */
const LEAST_SHARE_COLUMNS = 4;
const MOST_SHARE_COLUMNS = 10;
const LEAST_NAME_COLUMNS = 8;
/** "● Edda runs it" without the name, and a gap. */
const STATE_WORDS_COLUMNS = 11;
const LEAST_STATE_COLUMNS = 10;
const NO_ONE = 'no one'.length;
/** A mark, and the gap to what follows. */
const LEAST_OWNER_COLUMNS = 4;
const HEADING_COLUMNS = 12;

export function toolColumns({ width, nameColumns, toolNameColumns }: Layout, workers: number): ToolColumns {
  const free = width - MAGNITUDE_COLUMNS - LEFT_COLUMNS;
  const leastShares = workers * LEAST_SHARE_COLUMNS;
  const mostName = free - LEAST_STATE_COLUMNS - LEAST_OWNER_COLUMNS - leastShares;
  const name = Math.max(LEAST_NAME_COLUMNS, Math.min(toolNameColumns + 1, mostName));
  const withShares = mostName >= LEAST_NAME_COLUMNS;
  const forShares = withShares ? leastShares : 0;
  const wantedOwner = Math.max(nameColumns, NO_ONE) + 2;
  const wantedState = nameColumns + STATE_WORDS_COLUMNS;
  const room = free - name - forShares;
  const ownerByMark = room < wantedState + wantedOwner;
  const owner = ownerByMark ? LEAST_OWNER_COLUMNS : wantedOwner;
  const state = Math.min(wantedState, room - owner);
  const left = free - name - owner - state;
  const share = withShares ? Math.min(MOST_SHARE_COLUMNS, Math.floor(left / Math.max(1, workers))) : 0;
  const heading = withShares && left - share * workers >= HEADING_COLUMNS ? HEADING_COLUMNS : 0;
  return {
    name,
    state,
    owner,
    magnitude: MAGNITUDE_COLUMNS,
    left: LEFT_COLUMNS,
    share,
    heading,
    ownerByMark,
  };
}
