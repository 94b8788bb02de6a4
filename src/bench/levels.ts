// The alert levels of one worker (WEA-2): those of the regime, the notice level, and the site's own limit where there is one.
import { regimeById } from '../exposure/regimes.js';
import type { WorkerSpec } from '../scenario/day.js';
import type { Level } from '../wearable/levels.js';

/** Throws where no regime has this identifier: a scenario is checked for it when it is read. */
export function levelsFor(regimeId: string, worker: WorkerSpec): readonly Level[] {
  const regime = regimeById(regimeId);
  if (regime === undefined) throw new Error(`no exposure regime is called ${regimeId}`);
  const levels: Level[] = regime.levels.map(({ level, points, compare }) => ({ level, points, compare }));
  levels.push({ level: 'notice', points: worker.noticePoints, compare: 'reached' });
  if (worker.sitePoints !== null) levels.push({ level: 'site', points: worker.sitePoints, compare: 'reached' });
  return levels;
}
