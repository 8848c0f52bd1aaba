import type { DrawnLine, SideAnswer } from '../../figures';
import { angleIn, COVERAGE, distanceToLine, meters, uprightLine, type PlanePoint } from '../../physics';
import type { BenchAnswer, LineOfHang } from '../../answer/benchAnswer';
import { project } from '../../photo/camera';
import { acrossAt } from '../../photo/plumbLines';
import { toView } from '../../photo/views';
import type { BuildState, Picture } from '../../sheet/schema';
import { hangNumber } from '../../sheet/hangs';

import type { PictureEye } from './scenes';
import type { Place } from './surfaceView';

/** An answer as the photograph calculator draws and says it: pure functions of state and answer. */

/** "hang 2": the picture of a line. */
export function lineName(state: BuildState, line: LineOfHang): string {
  return `hang ${hangNumber(state, line.pictureId) || line.n}`;
}

/** The center of gravity in the side plane; null while there is none. */
export const cgPlace = ({ cg }: BenchAnswer): PlanePoint | null =>
  cg.ok ? { x: cg.value.ahead.value, z: cg.value.height.value } : null;

/** Half the 95 % band of a line where it passes a place, m. */
const halfBand = ({ plumbLines }: BenchAnswer, line: LineOfHang, at: PlanePoint): number =>
  plumbLines ? COVERAGE * acrossAt(plumbLines, line.pictureId, at) : 0;

/** Lines, ellipse and center of gravity for the figures. */
export function sideAnswer(state: BuildState, answer: BenchAnswer): SideAnswer {
  const cg = cgPlace(answer);
  const lines: DrawnLine[] = answer.lines.map((line) => ({
    ...line.line,
    label: lineName(state, line),
    hook: line.hook,
    halfBand: meters(halfBand(answer, line, cg ?? line.line.through)),
  }));
  if (answer.foreAft)
    lines.push({
      ...uprightLine(answer.foreAft.value),
      label: 'scales',
      hook: null,
      halfBand: meters(COVERAGE * answer.foreAft.u),
    });
  const { partsListCg } = answer;
  return {
    cg,
    ellipse: answer.cg.ok ? answer.cg.value.ellipse : null,
    lines,
    ...(partsListCg && cg && listIsDrawn(answer)
      ? { others: [{ place: { x: partsListCg.x.value, z: partsListCg.z.value }, label: 'parts list' }] }
      : {}),
  };
}

/** Nearer than this the ring of the parts list would vanish under the quartered circle, mm. */
const DRAWN_APART = 12;

/** How far the parts list's center of gravity lies from the answer's in the side plane, mm; 0 where either is unknown. */
export function listApart({ partsListCg: list, cg }: BenchAnswer): number {
  if (!list || !cg.ok) return 0;
  const { ahead, height } = cg.value;
  return Math.hypot(list.x.value - ahead.value, list.z.value - height.value) * 1000;
}

export const listIsDrawn = (answer: BenchAnswer): boolean => listApart(answer) > DRAWN_APART;

/** How the standing picture is looked at; null while the pictures are not adjusted. */
export function standingEye({ adjusted, noseDirection }: BenchAnswer, picture: Picture): PictureEye | null {
  const camera = adjusted?.cameras.get(picture.id);
  return camera ? { camera, nose: noseDirection } : null;
}

/** Where the center of gravity appears in a hanging picture; null where it is not known. */
export function cgInHang(answer: BenchAnswer, picture: Picture): Place | null {
  const camera = answer.adjusted?.cameras.get(picture.id);
  if (!camera || !answer.cg.ok) return null;
  const { ahead, left, height } = answer.cg.value;
  const line = [...answer.lines, ...answer.otherLines].find(({ pictureId }) => pictureId === picture.id);
  // Drooping axles carry the center of gravity of the hanging truck with them.
  const x = ahead.value + (line?.droop.ahead ?? 0);
  const z = height.value + (line?.droop.up ?? 0);
  return project(camera, toView(picture.view, { x, y: left.value, z }));
}

const square = (degrees: number): string =>
  degrees >= 75
    ? 'close to square'
    : degrees >= 50
      ? 'well enough'
      : degrees >= 30
        ? 'rather flat'
        : 'too flat';

/** "The lines cross at 84°, close to square."; '' while there are not two lines. */
export function crossingSentence(state: BuildState, answer: BenchAnswer): string {
  const [widest, ...others] = answer.crossings;
  if (!widest) return '';
  const shown = (angle: number) => `${Math.round(angle)}°`;
  const degrees = angleIn(widest.angle, 'deg');
  if (others.length === 0) return `The lines cross at ${shown(degrees)}, ${square(degrees)}.`;
  const pairs = answer.crossings.flatMap(({ first, second, angle }) => {
    const [a, b] = [answer.lines[first], answer.lines[second]];
    // The scales' line comes last and is no string: its crossings say nothing of the hooks.
    return a && b
      ? [`${lineName(state, a)} and ${lineName(state, b)} at ${shown(angleIn(angle, 'deg'))}`]
      : [];
  });
  const listed = pairs.length > 1 && pairs.length <= 6 ? `: ${pairs.join('; ')}` : '';
  return `The lines cross at up to ${shown(degrees)}, ${square(degrees)}${listed}.`;
}

/** Whether three or more lines of photographs agree, in words with numbers; '' where nothing checks them. */
export function consistencySentence(answer: BenchAnswer): string {
  const { consistency, triangle } = answer;
  if (!consistency || answer.lines.length < 3) return '';
  const size = triangle
    ? `The three lines leave a triangle ${(triangle.longestSide * 1000).toFixed(1)}\u00a0mm long. `
    : '';
  const inHundred = Math.round(consistency.probability * 100);
  const alike = answer.cg.ok && answer.cg.value.axes === 'own' ? 'objects' : 'trucks';
  const words =
    inHundred >= 1
      ? `in ${inHundred} of 100 ${alike} measured as well as this`
      : `in fewer than 1 of 100 ${alike} measured as well as this`;
  const verdict = consistency.probability >= 0.05 ? 'They agree' : 'They do not agree';
  return `${size}${verdict} within their ±: by chance alone they miss each other this much or more ${words} (chi-squared ${consistency.chiSquared.toFixed(1)}, ${consistency.degreesOfFreedom} ${consistency.degreesOfFreedom === 1 ? 'degree' : 'degrees'} of freedom).`;
}

/** How far the center of gravity lies from each line, mm. */
export const missesInMm = (answer: BenchAnswer): readonly number[] => {
  const cg = cgPlace(answer);
  return cg ? answer.lines.map(({ line }) => Math.abs(distanceToLine(line, cg)) * 1000) : [];
};
