// The alerts of everybody's shift in the order in which they fell.
import type { Moment } from '../trace/moment.js';
import type { RaisedAlert, WorkerMoment } from '../trace/moment-worker.js';

export interface WorkersAlert {
  readonly worker: WorkerMoment;
  readonly alert: RaisedAlert;
}

export function alertsOf(moment: Moment): readonly WorkersAlert[] {
  return moment.workers
    .flatMap((worker) => worker.alerts.map((alert) => ({ worker, alert })))
    .sort((a, b) => a.alert.atMs - b.alert.atMs);
}
