// The hours of the day below the strip chart.

const HOUR_MS = 3_600_000;
const LABEL_GAP = 2;

/** Labels "08:00" or, where they would touch, "08", each beginning in the column of its hour. */
export function hourLine(fromMs: number, untilMs: number, columns: number): string {
  const columnsAnHour = (columns * HOUR_MS) / untilMs;
  const long = columnsAnHour >= '08:00'.length + LABEL_GAP;
  const every = Math.max(1, Math.ceil(('08'.length + LABEL_GAP) / columnsAnHour));
  const row = Array.from<string>({ length: columns }).fill(' ');
  const first = Math.ceil(fromMs / HOUR_MS);
  for (let hour = first; hour * HOUR_MS <= fromMs + untilMs; hour += every) {
    const label = `${hour % 24}`.padStart(2, '0') + (long ? ':00' : '');
    const start = Math.floor(((hour * HOUR_MS - fromMs) * columns) / untilMs);
    if (start + label.length > columns) break;
    for (const [index, letter] of [...label].entries()) row[start + index] = letter;
  }
  return row.join('').trimEnd();
}
