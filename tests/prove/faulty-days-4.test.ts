// A quarter of the two thousand faulty days: the files are run side by side.
import { holdQuarter } from './faulty-days.js';

holdQuarter(4);
