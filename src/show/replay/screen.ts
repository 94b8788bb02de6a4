// The alternate screen: entered for the replay and left whatever happens, so that the shell finds its terminal as it was.

const ENTER = '\x1b[?1049h\x1b[H';
/** Back to the ordinary screen, with the cursor in view. */
const LEAVE = '\x1b[?1049l\x1b[?25h';

const SIGNALS = ['SIGTERM', 'SIGHUP', 'SIGINT'] as const;

/** What of a process this needs. */
export type Life = Pick<NodeJS.Process, 'on' | 'off' | 'kill' | 'pid'>;

/**
 * Enters the alternate screen and returns what leaves it again, once. It is left as well before a crash is reported,
 * when the process exits, and when a signal ends it; `stop` is called first in the last case.
 */
export function enterScreen(stdout: NodeJS.WritableStream, life: Life, stop: () => void): () => void {
  let entered = true;
  const leave = () => {
    if (!entered) return;
    entered = false;
    stdout.write(LEAVE);
    life.off('exit', leave);
    life.off('uncaughtExceptionMonitor', leave);
    for (const signal of SIGNALS) life.off(signal, onSignal);
  };
  const onSignal = (signal: NodeJS.Signals) => {
    stop();
    leave();
    // Nobody listens any more, so that the signal now does what it always does.
    life.kill(life.pid, signal);
  };
  life.on('exit', leave);
  life.on('uncaughtExceptionMonitor', leave);
  for (const signal of SIGNALS) life.on(signal, onSignal);
  stdout.write(ENTER);
  return leave;
}
