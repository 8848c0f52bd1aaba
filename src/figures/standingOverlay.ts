import { svg, type nothing, type SVGTemplateResult } from 'lit';
import { centerOfGravitySign, formerCenterOfGravity } from './centerOfGravitySign';
import { ELLIPSE_HATCH, hatchedOutline } from './errorEllipse';
import { coordinate as c, point } from './geometry';
import type { PageBox } from './grid';
import { groundLine } from './groundLine';
import { bodyMarkSign, casedLine, hookSign, plumbLine, stringLine } from './plumbLine';
import { overlayItems, type OverlayItem, type Projection, type SideAnswer } from './sideOverlay';

/**
 * The answer drawn over a side view: lines extended, 95 % ellipse, quartered circle, ground, hubs, marks. Every
 * line has a paper casing, so that it reads over a photograph.
 *
 * `project` gives the place in the user units of the surrounding SVG, `unitsPerPixel` how many of those make one
 * px on the screen: 1 for a figure, picture width over shown width for a photograph whose SVG counts in picture
 * pixels. Signs and text keep their size on the screen; labels stay inside `frame` (user units) if given.
 */
export function standingOverlay(
  answer: SideAnswer,
  project: Projection,
  unitsPerPixel = 1,
  frame?: PageBox,
): SVGTemplateResult {
  const onScreen: Projection = (place) => {
    const { x, y } = project(place);
    return point(x / unitsPerPixel, y / unitsPerPixel);
  };
  const marks = answer.marks?.map((mark) => ({
    ...mark,
    at: point(mark.at.x / unitsPerPixel, mark.at.y / unitsPerPixel),
  }));
  const onScreenFrame = frame && {
    x: frame.x / unitsPerPixel,
    y: frame.y / unitsPerPixel,
    width: frame.width / unitsPerPixel,
    height: frame.height / unitsPerPixel,
  };
  const items = overlayItems(marks ? { ...answer, marks } : answer, onScreen, onScreenFrame);
  return svg`<g class="overlay" transform=${`scale(${unitsPerPixel})`} aria-hidden="true">${items.map(drawn)}</g>`;
}

function drawn(item: OverlayItem): SVGTemplateResult | typeof nothing {
  switch (item.kind) {
    case 'chain':
      return plumbLine(item.from, item.to);
    case 'string':
      return stringLine(item.from, item.to);
    case 'hub line':
      return casedLine(item.from, item.to, 'line-dimension');
    case 'ground':
      return svg`<line class="casing" x1=${c(item.from.x)} y1=${c(item.from.y)} x2=${c(item.to.x)} y2=${c(item.to.y)}></line>
        ${groundLine(item.from, item.to, false)}`;
    case 'ellipse':
      return hatchedOutline([item.outline], 5, ELLIPSE_HATCH);
    case 'hook':
      return hookSign(item.at);
    case 'mark':
      return bodyMarkSign(item.at, item.aside);
    case 'cg':
      return centerOfGravitySign(item.at);
    case 'former':
      return formerCenterOfGravity(item.at);
    case 'label':
      return svg`<text class="cased ${TONES[item.tone]} ${item.anchor}" x=${c(item.at.x)} y=${c(item.at.y)}>${item.text}</text>`;
  }
}

const TONES = { ink: 'label-strong', given: 'label-given', warning: 'label-warning' } as const;
