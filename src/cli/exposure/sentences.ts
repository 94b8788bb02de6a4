// The answer of `counterproof exposure` for a person: sentences and plain lists.
import { doseOfPoints } from '../../exposure/dose.js';
import type { ExposureOutput } from '../schemas/exposure.js';
import { a8Text, magnitudeText, pointsText, timeLeftText, timeText } from './numbers.js';

export function exposureSentences(output: ExposureOutput): string {
  const { day, operations, levels, regime, dailyCap, timeLeft, cautions } = output;
  const title = `Under ${regime.id} (${regime.title}):`;
  return [
    `The day comes to ${a8Text(day.a8)}, ${pointsText(day.dose)}, from ${timeText(day.triggerMs)} of trigger time.`,
    '',
    'Operation by operation:',
    ...operations.map(operationLine),
    '',
    title,
    `- Source: ${regime.source}.`,
    ...levels.map((level) => levelLine(level, day.dose)),
    ...(dailyCap === null ? [] : [capLine(dailyCap, day.triggerMs)]),
    '',
    'Trigger time left after that, were only this tool used:',
    ...timeLeft.map(timeLeftLine),
    '',
    cautions.join(' '),
    '',
  ].join('\n');
}

function operationLine({ magnitude, triggerMs, a8, dose }: ExposureOutput['operations'][number]): string {
  return `- ${magnitudeText(magnitude)} for ${timeText(triggerMs)} makes ${a8Text(a8)}, ${pointsText(dose)}.`;
}

function levelLine(level: ExposureOutput['levels'][number], dayDose: number): string {
  const name = `- The ${level.level} value (${a8Text(level.a8)}, ${level.points} points)`;
  switch (level.stands) {
    case 'below':
      return `${name} is not reached: ${pointsText(level.leftDose)} left.`;
    case 'at':
      return level.passed
        ? `${name} is reached exactly, and counts as soon as it is reached.`
        : `${name} is reached exactly, and counts only when it is exceeded.`;
    case 'above':
      return `${name} is exceeded by ${pointsText(dayDose - doseOfPoints(level.points))}.`;
  }
}

function capLine(cap: NonNullable<ExposureOutput['dailyCap']>, usedMs: number): string {
  const name = `- The cap of ${timeText(cap.ms)} of trigger time a day`;
  if (usedMs > cap.ms) return `${name} is exceeded by ${timeText(usedMs - cap.ms)}.`;
  return `${name} leaves ${timeText(cap.leftMs)}.`;
}

function timeLeftLine({ magnitude, toActionMs, toLimitMs, capped }: ExposureOutput['timeLeft'][number]): string {
  const end = `${timeLeftText(toLimitMs)} to the ${capped ? 'cap on the day' : 'limit value'}`;
  // What the cap does not let come is not promised.
  const left = capped && toActionMs > toLimitMs ? end : `${timeLeftText(toActionMs)} to the action value, ${end}`;
  return `- ${magnitudeText(magnitude)}: ${left}.`;
}
