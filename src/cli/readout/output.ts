// A record as the command prints it: identities become names, windows become ms, doses get their points beside them.

import type { CounterRecord, UndeliveredSession } from '../../counter/readout.js';
import { exposureOfPoints, pointsOfDose } from '../../exposure/points.js';
import { WINDOW_MS } from '../../port/port.js';
import { type Devices, toolOf, workerOf } from '../../trace/devices.js';
import type { RecordedSession, RecordedShift, WearableRecord } from '../../wearable/record.js';
import { CAUTIONS } from '../print/cautions.js';
import type { CounterOutput, WearableOutput } from '../schemas/readout.js';

/** A counter tells of a session as a whole, and what it had told before lies on the ledger of the wearable already. */
export const WHOLE_SESSIONS =
  'Each sum is of the whole session, what its wearable had heard included: take the larger of the two, never add them.';

interface Sums {
  readonly dose: number;
  readonly triggerWindows: number;
  readonly unratedWindows: number;
}

/** readOutAtMs: null where the record came from a file. */
export function wearableOutput(
  { device, shifts, sessions }: WearableRecord,
  worker: string,
  readOutAtMs: number | null,
  devices: Devices,
): WearableOutput {
  const kept = new Set(shifts.map(({ shift }) => shift));
  return {
    record: 'wearable',
    worker,
    wearable: device,
    readOutAtMs,
    shifts: shifts.map((one) =>
      shiftOutput(
        one,
        sessions.filter(({ shift }) => shift === one.shift),
        devices,
      ),
    ),
    earlier: sessions.filter(({ shift }) => !kept.has(shift)).map((session) => sessionOutput(session, devices)),
    cautions: CAUTIONS,
  };
}

export function counterOutput(
  { device, powerLosses, unclaimed, undelivered }: CounterRecord,
  tool: string,
  readOutAtMs: number | null,
  devices: Devices,
): CounterOutput {
  // Whatever is rated makes a dose, so without one all of it was unrated.
  const unclaimedSums = { ...unclaimed, unratedWindows: unclaimed.dose === 0 ? unclaimed.triggerWindows : 0 };
  const { dose, points, triggerMs } = sumsOutput(unclaimedSums);
  return {
    record: 'counter',
    tool,
    counter: device,
    readOutAtMs,
    powerLosses,
    unclaimed: { dose, points, triggerMs },
    undelivered: undelivered.map((session) => undeliveredOutput(session, devices)),
    cautions: [WHOLE_SESSIONS, ...CAUTIONS],
  };
}

function shiftOutput(
  shift: RecordedShift,
  sessions: readonly RecordedSession[],
  devices: Devices,
): WearableOutput['shifts'][number] {
  const sums = sumsOutput(shift);
  const { open, long, incomplete } = shift;
  return {
    shift: shift.shift,
    ...sums,
    a8: sums.points === null ? null : exposureOfPoints(sums.points),
    open,
    long,
    incomplete: [...incomplete],
    sessions: sessions.map((session) => sessionOutput(session, devices)),
    forgotten: forgottenOf(shift, sessions),
  };
}

/** A wearable keeps so many sessions; of older ones only their part in the sums of the shift is left. */
function forgottenOf(shift: Sums, sessions: readonly Sums[]): WearableOutput['shifts'][number]['forgotten'] {
  const rest = (sum: (sums: Sums) => number) =>
    Math.max(0, sum(shift) - sessions.reduce((all, one) => all + sum(one), 0));
  const sums = {
    dose: rest(({ dose }) => dose),
    triggerWindows: rest(({ triggerWindows }) => triggerWindows),
    unratedWindows: rest(({ unratedWindows }) => unratedWindows),
  };
  return sums.dose === 0 && sums.triggerWindows === 0 ? null : sumsOutput(sums);
}

function sessionOutput(session: RecordedSession, devices: Devices): WearableOutput['earlier'][number] {
  const { counter, shortBursts, powerLosses, sealed } = session;
  return {
    tool: toolOf(devices, counter),
    counter,
    session: session.session,
    ...sumsOutput(session),
    shortBursts,
    powerLosses,
    sealed,
  };
}

function undeliveredOutput(session: UndeliveredSession, devices: Devices): CounterOutput['undelivered'][number] {
  const { wearable, shortBursts, flags } = session;
  return {
    worker: workerOf(devices, wearable),
    wearable,
    session: session.session,
    ...sumsOutput(session),
    shortBursts,
    flags: [...flags],
  };
}

/** MAG-6: time at no magnitude never becomes zero points. */
function sumsOutput({ dose, triggerWindows, unratedWindows }: Sums) {
  return {
    dose,
    points: dose === 0 && unratedWindows > 0 ? null : pointsOfDose(dose),
    triggerMs: triggerWindows * WINDOW_MS,
    unratedMs: unratedWindows * WINDOW_MS,
  };
}
