// One line of the timeline before it is put into columns.

export interface TimelineLine {
  /** Ms since the start of the day. */
  readonly atMs: number;
  readonly who: string;
  readonly text: string;
}
