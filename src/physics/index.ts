/** The one door of the physics module. Other layers import from here only. */
export * from './quantities';
export * from './leastSquares';
