/**
 * The boat as the instruments together know her: one source for each quantity, only what is fresh, and how sure it is.
 * `hear` takes sentences, `pass` lets a second go by, `view` looks.
 */
export { hear } from './hear.ts';
export { view } from './look.ts';
export { pass } from './pass.ts';
export { createVessel, type VesselState } from './state.ts';
