import { quarters } from './centerOfGravitySign';
import { detailFactor, detailShapes } from './detailCircle';
import { ELLIPSE_HATCH } from './errorEllipse';
import { ellipsePoints, pathThrough, point, polar, type Point } from './geometry';
import { hatchPath } from './hatch';
import { overlayItems, type OverlayItem, type Projection, type SideAnswer } from './sideOverlay';

/**
 * The reader's own picture with the answer painted into it, at full size, to keep or to send. It leaves the page,
 * so it carries its own colors (those of the light drawing) and falls back on the system's sans face.
 */

const PAPER = '#FBF9F3';
const INK = '#14272B';
const QUIET_INK = '#47595C';
const BLUE = '#1A579C';
const RED = '#AE2A1E';
const TEAL = '#1F6F69';
const TEAL_WASH = 'rgba(220, 237, 233, 0.75)';
const FACE = "'Atkinson Hyperlegible Next', system-ui, sans-serif";

export interface AnnotatedPicture {
  /** The upright picture at full size. */
  readonly picture: CanvasImageSource;
  /** Its size, px. */
  readonly width: number;
  readonly height: number;
  readonly answer: SideAnswer;
  /** Places in picture pixels. */
  readonly project: Projection;
  /** Picture pixels per mm at the truck's center plane, for the scale bar. */
  readonly pixelsPerMm: number;
  /** Whether forward is to the right (1) or to the left (-1) in the picture. */
  readonly sense: 1 | -1;
  /** Lines of the caption below the picture: truck and state, the CG with its ±, the scale. The first is bold. */
  readonly caption: readonly string[];
}

/** Longer side of the drawing the overlay is made for, px. */
const DRAWN_AT = 800;

/** Why no picture file could be made. */
export class PictureExportError extends Error {}

/**
 * A PNG of the picture with overlay, detail of the crossing, scale bar and caption. Signs grow with the picture: they
 * are drawn as on a page 800 px wide. Throws PictureExportError where the browser gives no canvas of that size.
 */
export async function annotatedPicture(content: AnnotatedPicture): Promise<Blob> {
  const unit = Math.max(content.width, content.height) / DRAWN_AT;
  const captionHeight = content.caption.length === 0 ? 0 : (22 + 24 * content.caption.length) * unit;
  const canvas = document.createElement('canvas');
  canvas.width = content.width;
  canvas.height = Math.round(content.height + captionHeight);
  const pen = canvas.getContext('2d');
  if (!pen) throw new PictureExportError('This browser gave no drawing surface for a picture of this size.');
  paintAnnotatedPicture(pen, content, unit);
  return new Promise((resolve, reject) => {
    canvas.toBlob((blob) => {
      if (blob) resolve(blob);
      else reject(new PictureExportError('The picture is too large for this browser to write.'));
    }, 'image/png');
  });
}

/** Paints picture, overlay, scale bar and caption. `unit`: picture px per px of the drawing's own sizes. */
export function paintAnnotatedPicture(
  pen: CanvasRenderingContext2D,
  content: AnnotatedPicture,
  unit: number,
): void {
  const { width, height } = content;
  pen.drawImage(content.picture, 0, 0, width, height);
  pen.save();
  pen.scale(unit, unit);
  pen.lineJoin = 'round';
  const onDrawing: Projection = (place) => {
    const { x, y } = content.project(place);
    return point(x / unit, y / unit);
  };
  const marks = content.answer.marks?.map((mark) => ({
    ...mark,
    at: point(mark.at.x / unit, mark.at.y / unit),
  }));
  const frame = { x: 0, y: 0, width: width / unit, height: height / unit };
  for (const item of overlayItems(marks ? { ...content.answer, marks } : content.answer, onDrawing, frame)) {
    paint(pen, item);
  }
  paintDetail(pen, content, unit);
  paintScaleBar(pen, content, unit);
  paintCaption(pen, content, unit);
  pen.restore();
}

function stroke(
  pen: CanvasRenderingContext2D,
  d: string,
  color: string,
  size: number,
  dash: number[] = [],
): void {
  const path = new Path2D(d);
  pen.setLineDash([]);
  pen.strokeStyle = PAPER;
  pen.lineWidth = size + 3.2;
  pen.stroke(path);
  pen.setLineDash(dash);
  pen.strokeStyle = color;
  pen.lineWidth = size;
  pen.stroke(path);
  pen.setLineDash([]);
}

function ring(
  pen: CanvasRenderingContext2D,
  at: Point,
  radius: number,
  fill: string | null,
  color: string,
): void {
  pen.beginPath();
  pen.arc(at.x, at.y, radius, 0, 2 * Math.PI);
  if (fill !== null) {
    pen.fillStyle = fill;
    pen.fill();
  }
  pen.strokeStyle = color;
  pen.lineWidth = 1.8;
  pen.stroke();
}

function write(
  pen: CanvasRenderingContext2D,
  text: string,
  at: Point,
  anchor: 'start' | 'middle' | 'end',
  color: string,
  weight = 700,
): void {
  pen.font = `${weight} 15px ${FACE}`;
  pen.textAlign = anchor === 'middle' ? 'center' : anchor;
  pen.strokeStyle = PAPER;
  pen.lineWidth = 4.5;
  pen.strokeText(text, at.x, at.y);
  pen.fillStyle = color;
  pen.fillText(text, at.x, at.y);
}

function paint(pen: CanvasRenderingContext2D, item: OverlayItem): void {
  switch (item.kind) {
    case 'chain':
      stroke(pen, pathThrough([item.from, item.to]), INK, 1.4, [16, 4, 2.5, 4]);
      return;
    case 'string':
      stroke(pen, pathThrough([item.from, item.to]), BLUE, 1.8);
      return;
    case 'ground':
      stroke(pen, pathThrough([item.from, item.to]), INK, 2);
      return;
    case 'hub line':
      stroke(pen, pathThrough([item.from, item.to]), INK, 1);
      return;
    case 'ellipse':
      paintHatched(pen, item.outline);
      return;
    case 'hook':
      ring(pen, item.at, 5, PAPER, BLUE);
      return;
    case 'former':
      ring(pen, item.at, 8, PAPER, QUIET_INK);
      return;
    case 'mark': {
      const { x, y } = item.at;
      const sight =
        `M${x} ${y - 2.5}V${y - 9}M${x} ${y + 2.5}V${y + 9}` +
        `M${x - 2.5} ${y}H${x - 9}M${x + 2.5} ${y}H${x + 9}`;
      stroke(
        pen,
        `${sight}M${x + 6} ${y}A6 6 0 1 1 ${x - 6} ${y}A6 6 0 1 1 ${x + 6} ${y}`,
        item.aside ? RED : BLUE,
        1.6,
      );
      return;
    }
    case 'cg':
      paintSign(pen, item.at);
      return;
    case 'label':
      write(pen, item.text, item.at, item.anchor, { ink: INK, given: BLUE, warning: RED }[item.tone]);
  }
}

function paintSign(pen: CanvasRenderingContext2D, at: Point): void {
  ring(pen, at, 12.6, PAPER, PAPER);
  ring(pen, at, 10, PAPER, INK);
  pen.fillStyle = INK;
  pen.fill(new Path2D(quarters(at, 10)));
}

function paintHatched(pen: CanvasRenderingContext2D, outline: readonly Point[]): void {
  const edge = new Path2D(pathThrough(outline, true));
  pen.fillStyle = TEAL_WASH;
  pen.fill(edge);
  pen.strokeStyle = TEAL;
  pen.lineWidth = 0.9;
  pen.stroke(new Path2D(hatchPath([outline], 5, ELLIPSE_HATCH)));
  pen.lineWidth = 1.6;
  pen.stroke(edge);
}

/** The crossing magnified, at the upper corner farther from the CG: the ellipse itself hides under the sign. */
function paintDetail(pen: CanvasRenderingContext2D, content: AnnotatedPicture, unit: number): void {
  const { cg, ellipse, lines } = content.answer;
  if (!cg || !ellipse) return;
  const radius = 64;
  const width = content.width / unit;
  const at = content.project(cg);
  const center = point(at.x / unit > width / 2 ? radius + 16 : width - radius - 16, radius + 14);
  const scale = content.pixelsPerMm / unit;
  const factor = detailFactor(ellipse.semiMajor, scale, radius);
  const shapes = detailShapes({
    center,
    radius,
    letter: 'X',
    scale,
    factor,
    at: cg,
    lines,
    ellipse,
    sense: content.sense,
  });
  const mark = point(at.x / unit, at.y / unit);
  ring(pen, mark, 17, null, INK);
  write(pen, 'X', polar(mark, 29, (3 * Math.PI) / 4), 'middle', INK);
  ring(pen, center, radius, PAPER, INK);
  if (shapes.ellipse) {
    const { semiMajor, semiMinor, angle } = shapes.ellipse;
    paintHatched(pen, ellipsePoints(center, semiMajor, semiMinor, angle));
  }
  const plain = (ends: readonly [Point, Point], color: string, size: number, dash: number[]): void => {
    pen.setLineDash(dash);
    pen.strokeStyle = color;
    pen.lineWidth = size;
    pen.stroke(new Path2D(pathThrough(ends)));
    pen.setLineDash([]);
  };
  for (const ends of shapes.bands) plain(ends, TEAL, 1.1, [4, 3]);
  for (const ends of shapes.lines) plain(ends, INK, 1.4, [16, 4, 2.5, 4]);
  paintSign(pen, center);
  write(pen, shapes.caption.text, shapes.caption.at, 'middle', INK);
}

/** 100 mm at the lower left, with ticks, where it fits into the picture. */
function paintScaleBar(pen: CanvasRenderingContext2D, content: AnnotatedPicture, unit: number): void {
  const size = (100 * content.pixelsPerMm) / unit;
  const y = content.height / unit - 34;
  if (!(size > 20) || size > content.width / unit - 60) return;
  let d = `M24 ${y}h${size}`;
  for (let i = 0; i <= 10; i += 1) d += `M${24 + (size * i) / 10} ${y}v${i % 5 === 0 ? -9 : -5}`;
  stroke(pen, d, INK, 1.3);
  write(pen, '0', point(24, y + 19), 'middle', INK, 500);
  write(pen, '100 mm', point(24 + size, y + 19), 'middle', INK, 500);
}

function paintCaption(pen: CanvasRenderingContext2D, content: AnnotatedPicture, unit: number): void {
  if (content.caption.length === 0) return;
  const top = content.height / unit;
  pen.fillStyle = PAPER;
  pen.fillRect(0, top, content.width / unit, 22 + 24 * content.caption.length + 1);
  pen.textAlign = 'start';
  content.caption.forEach((line, i) => {
    pen.font = `${i === 0 ? 700 : 400} 16px ${FACE}`;
    pen.fillStyle = INK;
    pen.fillText(line, 24, top + 30 + 24 * i);
  });
}
