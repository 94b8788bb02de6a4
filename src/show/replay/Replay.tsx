// The replay as it runs: keys and ticks move the player, the frame follows.
import { useApp, useInput, useStdin } from 'ink';
import { useEffect, useReducer } from 'react';
import { Frame } from './Frame.js';
import { commandsOf } from './keys.js';
import { AT_START, type Command, type Player, played } from './player.js';
import type { Reel } from './reel.js';
import type { Ticker } from './ticker.js';
import { useTerminalSize } from './use-terminal-size.js';

interface Props {
  readonly reel: Reel;
  readonly ticker: Ticker;
}

export function Replay({ reel, ticker }: Props) {
  const { exit } = useApp();
  const { isRawModeSupported } = useStdin();
  const hasKeys = isRawModeSupported === true;
  const { columns, rows } = useTerminalSize();
  const [player, command] = useReducer(
    (before: Player, given: Command) => played(before, given, reel.cursor, reel.untilMs),
    AT_START,
  );
  useEffect(() => ticker((elapsedMs) => command({ do: 'tick', elapsedMs })), [ticker]);
  useInput(
    (input, key) => {
      for (const one of commandsOf(input, key)) {
        if (one === 'quit') return exit();
        command(one);
      }
    },
    { isActive: hasKeys },
  );
  // Where no key can be pressed, the end of the day ends the replay too.
  const over = !hasKeys && !player.playing;
  useEffect(() => {
    if (over) exit();
  }, [over, exit]);
  return <Frame reel={reel} player={player} columns={columns} rows={rows} />;
}
