/** Finders: strings, round marks and blur from a picture's own edges. Pure functions of a gray crop. */
export * from './gray';
export * from './lineFit';
export * from './findString';
export * from './findRound';
export * from './blur';
