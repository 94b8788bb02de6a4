import { Bench } from './src/bench/bench.js';
import { benchDay } from './tests/bench/bench-day.js';
const day=benchDay(); const keys=process.argv[2]==='keys'; const N=Number(process.argv[3]??20);
for (let i=0;i<3;i++) Bench.open(day,{trace:'none',keys}).run();
const c0=process.cpuUsage(); for(let i=0;i<N;i++) Bench.open(day,{trace:'none',keys}).run(); const c=process.cpuUsage(c0); console.log('cpu ms a day',(c.user+c.system)/1000/N);
