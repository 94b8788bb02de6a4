// Import directions: what each folder may import, as the table of the house in DEVELOPERS.md says.
// `npm run directions` holds it; tests/project/directions.test.ts shows that it bites.

/** Folder → path patterns of the project's own files that it may import, beside itself and src/exposure. */
const HOUSE = {
  sim: [],
  'src/exposure': [],
  'src/link': [],
  'src/port': ['^src/link/'],
  'src/journal': ['^src/port/'],
  'src/counter': ['^src/(link|port|journal)/'],
  'src/wearable': ['^src/(link|port|journal)/'],
  'src/vibration': ['^src/counter/detector'],
  'src/trace': ['^src/port/'],
  'src/scenario': [],
  'src/bench': ['^sim/', '^src/(link|port|journal|counter|wearable|trace|scenario)/'],
  'src/judge': ['^src/(trace|scenario)/', '^src/(counter|wearable)/rows\\.ts$'],
  'src/prove': ['^sim/', '^src/(link|port|journal|counter|wearable|vibration|trace|scenario|bench|judge)/'],
  'src/practice': ['^src/wearable/record', '^src/vibration/results\\.ts$'],
  'src/show': ['^src/(trace|scenario|practice)/', '^src/judge/verdict\\.ts$', '^src/link/frames\\.ts$'],
  'src/cli': ['^(sim|src)/'],
};

const OWN_FILES = '^(src|sim|tests)/';
const EVERYBODY_MAY = '^src/exposure/';

const directions = Object.entries(HOUSE).map(([folder, allowed]) => ({
  name: `${folder} imports only what its line allows`,
  severity: 'error',
  from: { path: `^${folder}/` },
  to: {
    path: OWN_FILES,
    pathNot: [`^${folder}/`, ...(folder === 'sim' ? [] : [EVERYBODY_MAY]), ...allowed],
  },
}));

export default {
  forbidden: [
    ...directions,
    {
      name: 'every folder has a line in the house',
      severity: 'error',
      from: {},
      to: { path: '^src/', pathNot: `^(${Object.keys(HOUSE).join('|')})/` },
    },
    { name: 'no cycles', severity: 'error', from: {}, to: { circular: true } },
    {
      name: 'nothing shipped needs a development package',
      severity: 'error',
      from: { path: '^(src|sim)/' },
      to: { dependencyTypes: ['npm-dev', 'npm-no-pkg', 'npm-unknown'] },
    },
    { name: 'every import is found', severity: 'error', from: {}, to: { couldNotResolve: true } },
  ],
  options: {
    tsPreCompilationDeps: true,
    tsConfig: { fileName: 'tsconfig.json' },
    doNotFollow: { path: 'node_modules' },
    moduleSystems: ['es6'],
    enhancedResolveOptions: { exportsFields: ['exports'], conditionNames: ['import', 'node', 'default', 'types'] },
  },
};
