// A task that takes a person several gestures and a look at a display, at the step that comes next. Plain data.

export type Task =
  | {
      readonly verb: 'set';
      readonly tool: number;
      readonly toTenths: number;
      readonly step: 'opened' | 'turning' | 'reviewed' | 'committed';
      /** Steps made so far, and whether the last turn was a quick one. */
      readonly made: number;
      readonly quick: boolean;
      readonly cause: number;
    }
  | {
      readonly verb: 'pair';
      readonly tool: number;
      readonly worker: number;
      readonly step: 'compare' | 'tap' | 'done';
      readonly made: number;
      readonly cause: number;
    };
