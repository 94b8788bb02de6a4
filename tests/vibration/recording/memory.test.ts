// Memory does not grow with the file: 30 million frames, and a line of 100 MB, in a process of their own.
import { execFileSync } from 'node:child_process';
import { fileURLToPath } from 'node:url';
import { expect, it } from 'vitest';

const ROOT = fileURLToPath(new URL('../../../', import.meta.url));
const FRAMES = 30_000_000;
const SCRIPT = `
  const { costOf, writeEndless, writeSparseWav } = await import('./tests/vibration/recording/big-files.ts');
  const { folder } = await import('./tests/vibration/recording/read-all.ts');
  const { USUAL } = await import('./tests/vibration/recording/wav-files.ts');
  const files = folder();
  const wav = files.write('long.wav', '');
  writeSparseWav(wav, USUAL, ${FRAMES});
  const line = files.write('line.csv', '');
  writeEndless(line, 'x;y;z\\n1;2;3\\n', 100, '');
  const options = { rateHz: 25_600, fullScale: 500 };
  console.log(JSON.stringify([await costOf(wav, options), await costOf(line, options)]));
  files.remove();
`;

it('30 million frames and an endless line are read in under 300 MB', { timeout: 300_000 }, () => {
  const flags = ['--import', './.ts-node.mjs', '--input-type=module', '--eval', SCRIPT];
  const [wav, line] = JSON.parse(execFileSync(process.execPath, flags, { cwd: ROOT, encoding: 'utf8' }));
  expect(wav.frames).toBe(FRAMES);
  expect(wav.residentMb).toBeLessThan(300);
  expect(line.frames).toBe(1);
  expect(line.residentMb).toBeLessThan(300);
});
