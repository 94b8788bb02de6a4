// Colours of the workers' lines. They only help the eye: the mark on each line says whose it is. No red, amber or green.
const WORKER_COLOURS = ['cyan', 'magenta', 'white', 'blueBright', 'cyanBright', 'magentaBright'] as const;

export function colourOf(worker: number): string {
  return WORKER_COLOURS[worker % WORKER_COLOURS.length] ?? 'white';
}
