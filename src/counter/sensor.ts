// Whether the sensor can be believed (TRG-5): a silent, frozen or clipped one is a fault once it has been so for half a
// second, and good again after half a second without. A clipped sensor counts as running; a silent or frozen one as at rest.
import type { SensorState } from '../port/port.js';

/** Windows of 100 ms in a row before the verdict changes; TRG-5 asks for 1 s at most. */
const WINDOWS_TO_BELIEVE = 5;

export interface SensorWatch {
  faulty: boolean;
  /** Windows in a row that speak against the present verdict. */
  against: number;
}

export function sensorWindowsToDecision(watch: SensorWatch, sensor: SensorState): number {
  return speaksAgainst(watch, sensor) ? WINDOWS_TO_BELIEVE - watch.against : Infinity;
}

/** Feeds windows, at most up to the next decision; true where the verdict changed. */
export function watchSensor(watch: SensorWatch, sensor: SensorState, windows: number): boolean {
  if (!speaksAgainst(watch, sensor)) {
    watch.against = 0;
    return false;
  }
  watch.against += windows;
  if (watch.against < WINDOWS_TO_BELIEVE) return false;
  watch.faulty = !watch.faulty;
  watch.against = 0;
  return true;
}

/** The level that the detector is given. */
export function believedLevelMm(levelMm: number, sensor: SensorState): number {
  if (sensor === 'clipped') return Number.MAX_SAFE_INTEGER;
  return sensor === 'good' ? levelMm : 0;
}

function speaksAgainst(watch: SensorWatch, sensor: SensorState): boolean {
  return (sensor !== 'good') !== watch.faulty;
}
