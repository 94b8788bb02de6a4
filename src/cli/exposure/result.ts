// Works out what a day's operations come to under a regime: everything the command prints, as data.
// All of it is taken from the exact dose, so that points, A(8) and the comparison with the levels never disagree.
import { addDose, doseOf, doseOfPoints } from '../../exposure/dose.js';
import { exposureOfPoints, pointsOfDose } from '../../exposure/points.js';
import { hasPassed, levelPoints, type Regime, type RegimeLevel } from '../../exposure/regimes.js';
import { timeToLimitMs, timeToPointsMs, timeUnderCapMs, type Used } from '../../exposure/time-left.js';
import { CAUTIONS } from '../print/cautions.js';
import type { ExposureOutput } from '../schemas/exposure.js';
import type { PlannedOperation } from './operation.js';

export function exposureOf(operations: readonly PlannedOperation[], regime: Regime): ExposureOutput {
  const parts = operations.map(({ magnitudeTenths, triggerMs }) => ({
    magnitude: magnitudeTenths / 10,
    triggerMs,
    ...inAllScales(doseOf(magnitudeTenths, triggerMs)),
  }));
  const used: Used = {
    dose: parts.reduce((sum, { dose }) => addDose(sum, dose), 0),
    triggerMs: parts.reduce((sum, { triggerMs }) => sum + triggerMs, 0),
  };
  const { id, title, source, version, dailyCap } = regime;
  return {
    regime: { id, title, source, version },
    operations: parts,
    day: { triggerMs: used.triggerMs, ...inAllScales(used.dose) },
    levels: regime.levels.map((level) => standing(level, used.dose)),
    dailyCap: dailyCap && { ...dailyCap, leftMs: timeUnderCapMs(dailyCap, used.triggerMs) },
    timeLeft: [...new Set(operations.map(({ magnitudeTenths }) => magnitudeTenths))].map((tenths) =>
      timeLeft(tenths, regime, used),
    ),
    cautions: CAUTIONS,
  };
}

function inAllScales(dose: number) {
  const points = pointsOfDose(dose);
  return { dose, points, a8: exposureOfPoints(points) };
}

function standing({ level, points, compare, clause }: RegimeLevel, dose: number): ExposureOutput['levels'][number] {
  const missing = doseOfPoints(points) - dose;
  return {
    level,
    points,
    a8: exposureOfPoints(points),
    compare,
    clause,
    stands: missing > 0 ? 'below' : missing === 0 ? 'at' : 'above',
    passed: hasPassed(dose, points, compare),
    leftDose: Math.max(0, missing),
  };
}

function timeLeft(magnitudeTenths: number, regime: Regime, used: Used): ExposureOutput['timeLeft'][number] {
  const toLimitMs = timeToLimitMs(magnitudeTenths, regime, used);
  return {
    magnitude: magnitudeTenths / 10,
    toActionMs: timeToPointsMs(magnitudeTenths, levelPoints(regime, 'action'), used.dose),
    toLimitMs,
    capped: toLimitMs < timeToPointsMs(magnitudeTenths, levelPoints(regime, 'limit'), used.dose),
  };
}
