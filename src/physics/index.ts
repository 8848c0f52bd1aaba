/** The one door of the physics module. Other layers import from here only. */
export * from './quantities';
export * from './leastSquares';
export * from './places';
export * from './chiSquared';
export * from './uncertainty';
export * from './lines';
export * from './errorEllipse';
export * from './meetingPoint';
export * from './scales';
export * from './compositeCg';
export * from './hanging';
export * from './supportPolygon';
export * from './tipLimits';
export * from './truckReadings';
export * from './truckModel';
export * from './reliability';
export * from './adjustTruck';
