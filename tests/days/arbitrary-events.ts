export * from '../../src/prove/days/events.js';
