/** The one door of the figures layer: signs, lines and scenes that the calculators share. */
export * from './geometry';
export * from './hatch';
export * from './viewTransform';
export * from './figureStyles';
export * from './truckTones';
export * from './truckDrawing';
export * from './centerOfGravitySign';
export * from './errorEllipse';
export * from './plumbLine';
