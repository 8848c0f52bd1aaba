import { css, html, nothing, svg, type TemplateResult } from 'lit';
import { bodyMarkSign, coordinate, point } from '../../figures';
import { angleIn } from '../../physics';
import type { BenchAnswer } from '../../answer/benchAnswer';
import type { Missing } from '../../photo/readState';
import { hangsOf } from '../../sheet/hangs';
import type { BuildState, Picture } from '../../sheet/schema';
import { keepNumbers, NO_BREAK } from '../shared/format';
import { projected } from '../shared/projector';
import '../shared/warning';
import { pictureName, standingOf } from './roles';
import { sceneOfHang } from './smallestPathScene';
import {
  crossedIn,
  pathOf,
  pixelsPlusMinus,
  relativeInLength,
  relativeSentence,
  sharper,
  shownCrossing,
  type PathLink,
  type Rung,
} from './smallestPathView';
import { capital, lower } from './words';

export interface SmallestPathParts {
  readonly state: BuildState;
  readonly answer: BenchAnswer;
  /** The picture in hand. */
  readonly picture: Picture | null;
  readonly goTo: (missing: Missing) => void;
  /** Opens a fold of the givens at a field of it; at its first where the path is ''. */
  readonly openField: (fold: string, path: string) => void;
  readonly choosePicture: (id: string) => void;
  readonly scaleFrom: (from: BuildState['scaleFrom']) => void;
}

/** The place on the pictures in words, while the truck's own axes do not give it yet; nothing where none is seen. */
export function pointOnPictures(parts: SmallestPathParts): TemplateResult | typeof nothing {
  const { state, picture, choosePicture } = parts;
  const crossed = shownCrossing(state, picture);
  const at = state.pictures.find(({ id }) => id === crossed?.pictureId);
  if (!crossed || !at) return nothing;
  const here = crossedIn(state, picture) !== null;
  const name = lower(pictureName(state, at));
  const where = !crossed.inside ? `beyond the edge of ${name}` : here ? 'here' : `in ${name}`;
  const length = relativeInLength(state);
  const degrees = Math.round(angleIn(crossed.angle, 'deg'));
  return html`<div class="point-on-pictures" role="status">
      <p class="lies-here">
        <strong>The center of gravity lies ${where}</strong>, ±${NO_BREAK}${pixelsPlusMinus(crossed)}
      </p>
      ${
        here
          ? nothing
          : html`<button class="word-link" type="button" @click=${() => choosePicture(at.id)}>
              Show ${name}
            </button>`
      }
      <p class="crossing">
        ${length ? keepNumbers(`${capital(length)} `) : nothing}${keepNumbers(relativeSentence(state, crossed))}
      </p>
      <p class="crossing quiet-text">
        The strings cross at ${degrees}°. ± holds 19 times in 20; most of it is how square the pictures
        are${projected() ? '' : ', which the steps below narrow'}.${crossed.marks.every(({ misfit }) => misfit === null) ? ' Two marks always fit: a third would check them.' : ''}
      </p>
    </div>
    ${marksWarning(parts)}`;
}

/** Marks that miss each other by more than their ± allows. */
function marksWarning({ state, picture, choosePicture }: SmallestPathParts): TemplateResult | typeof nothing {
  const crossed = shownCrossing(state, picture);
  if (!crossed || crossed.widened === 1) return nothing;
  const { worst, marks, widened } = crossed;
  const other = state.pictures.find(({ id }) => id === (worst ?? marks[0])?.pictureId);
  const wider = `The ± is ${widened.toFixed(1)} times as wide for it.`;
  const name = other ? lower(pictureName(state, other)) : '';
  const misfit = Math.max(...marks.map((each) => each.misfit ?? 0));
  return html`<plumb-bracket
    kind="warning"
    title-text=${worst ? `Mark ${worst.key} does not fit.` : 'The body marks do not fit.'}
    >${
      worst
        ? keepNumbers(`It lies ${worst.off.toFixed(0)} px from where ${name} puts it. ${wider}`)
        : keepNumbers(`They miss each other by ${misfit.toFixed(0)} px. ${wider}`)
    }
    Look at ${worst ? 'it' : 'each'} in the loupe: the same corner in every picture?
    ${
      other
        ? html`<button class="word-link" type="button" @click=${() => choosePicture(other.id)}>
            Look at ${name}
          </button>`
        : nothing
    }</plumb-bracket
  >`;
}

/** Whether the reader goes up by the smallest path: hangs without a standing picture, or a point before any length. */
export const onSmallestPath = (state: BuildState, answer: BenchAnswer, picture: Picture | null): boolean =>
  hangsOf(state).length > 0 &&
  (state.body === 'object' || standingOf(state) === null || shownCrossing(state, picture) !== null) &&
  pathOf(state, answer, picture).some((rung) => rung.state !== 'done');

/** The ladder: what every step buys, and what the next one needs. */
export function ladder(parts: SmallestPathParts): TemplateResult | typeof nothing {
  const { state, answer, picture } = parts;
  if (!onSmallestPath(state, answer, picture)) return nothing;
  const rungs = pathOf(state, answer, picture);
  const more = rungs[0]?.state === 'done' ? sharper(state) : [];
  return html`<div class="path" role="group" aria-labelledby="path-title">
    <h4 class="section-title" id="path-title">Step by step</h4>
    <ol>
      ${rungs.map((rung) => rungItem(parts, rung))}
    </ol>
    ${
      more.length > 0
        ? html`<p class="sharper">
            <b>Sharper</b> with
            ${more.map((each, index) => html`${index > 0 ? ', ' : nothing}${pathLink(parts, each)}`)}.
          </p>`
        : nothing
    }
  </div>`;
}

function rungItem(parts: SmallestPathParts, rung: Rung): TemplateResult {
  const { key, title, buys, state, needs, or } = rung;
  return html`<li class="rung ${state}" data-rung=${key} data-state=${state}>
    ${sign(state)}
    <div>
      <b>${title}</b> <span class="rung-state">${state}</span>
      <span class="buys">${state === 'done' ? 'gives' : 'buys'} ${buys}</span>
      ${
        state === 'next' && needs.length > 0
          ? html`<p class="needs">
              ${needs.map((each, index) => html`${index > 0 ? ', ' : nothing}${pathLink(parts, each)}`)}${or ? html`; or ${pathLink(parts, or)}` : nothing}
            </p>`
          : nothing
      }
    </div>
  </li>`;
}

function pathLink(
  { goTo, openField, choosePicture, scaleFrom }: SmallestPathParts,
  { what, target }: PathLink,
): TemplateResult {
  if (target.kind === 'page') return html`<a class="path-page" href=${target.href}>${what}</a>`;
  const follow = () => {
    if (target.kind === 'missing') goTo(target.missing);
    else if (target.kind === 'field') {
      if (target.picture !== undefined) choosePicture(target.picture);
      openField(target.fold, target.path);
    } else scaleFrom(target.from);
  };
  return html`<button class="word-link" type="button" @click=${follow}>${what}</button>`;
}

/** A ring on the ladder's line: struck with a tick when done, thick when next. */
const sign = (state: Rung['state']): TemplateResult =>
  html`<svg class="rung-sign" viewBox="0 0 20 20" aria-hidden="true">
    ${svg`<circle cx="10" cy="10" r="8"></circle>${state === 'done' ? svg`<path d="M5.6 10.4 8.7 13.6 14.4 6.8"></path>` : state === 'next' ? svg`<circle class="now" cx="10" cy="10" r="3.2"></circle>` : ''}`}
  </svg>`;

/** Width the printed picture is laid out at, px, as that of the standing picture. */
const PAPER_WIDTH = 640;
/** A hanging picture stands upright: on paper it takes this part of the width. */
const PAPER_HEIGHT = 480;

/** A hanging picture with the answer, as a figure that prints sharp. */
export function printedHang(
  state: BuildState,
  answer: BenchAnswer,
  picture: Picture,
  url: string,
): TemplateResult {
  const scale = Math.min(PAPER_WIDTH / picture.width, PAPER_HEIGHT / picture.height);
  const [width, height] = [picture.width * scale, picture.height * scale];
  const scene = sceneOfHang(state, answer, picture);
  return html`<svg
    class="figure printed-figure"
    viewBox="0 0 ${width.toFixed(1)} ${height.toFixed(1)}"
    aria-hidden="true"
  >
    ${svg`<image href=${url} x="0" y="0" width=${width.toFixed(1)} height=${height.toFixed(1)}></image>`}
    ${picture.marks
      .filter(({ role }) => role.startsWith('mark '))
      .map(({ role, x, y, counted }) => {
        const at = point(x * scale, y * scale);
        return svg`${bodyMarkSign(at, !counted)}<text class="cased start ${counted ? 'label-given' : 'label-warning'}" x=${coordinate(at.x + 12)} y=${coordinate(at.y - 9)}>${role.slice(5)}</text>`;
      })}
    ${scene(({ x, y }) => ({ x: x * scale, y: y * scale }), { width, height }, false)}
  </svg>`;
}

export const smallestPathStyles = css`
  .lies-here {
    font-size: 1.0625rem;
    line-height: 1.35;
  }
  .lies-here strong {
    font-size: 1.25rem;
    font-weight: 720;
  }
  .path {
    margin-block-start: 1.1rem;
    font-size: 0.9375rem;
    line-height: 1.4;
  }
  .path ol {
    margin: 0.35rem 0 0;
    padding: 0;
    list-style: none;
  }
  .rung {
    position: relative;
    display: grid;
    grid-template-columns: 1.25rem minmax(0, 1fr);
    gap: 0.6rem;
    padding-block: 0.3rem;
  }
  .rung:not(:last-child)::before {
    content: '';
    position: absolute;
    inset-block: 1.65rem -0.4rem;
    inset-inline-start: calc(0.625rem - 0.5px);
    border-inline-start: 1px solid var(--rule);
  }
  .rung-sign {
    width: 1.25rem;
    height: 1.25rem;
    fill: none;
    stroke: var(--rule);
    stroke-width: 1.3;
  }
  .done .rung-sign,
  .next .rung-sign {
    stroke: var(--ink);
    stroke-width: 1.7;
  }
  .rung-sign .now {
    fill: var(--ink);
    stroke: none;
  }
  .rung b {
    font-weight: 680;
  }
  .rung-state {
    margin-inline-start: 0.3rem;
    font-size: 0.8125rem;
    color: var(--ink-2);
  }
  .rung.next .rung-state {
    font-weight: 680;
    color: var(--ink);
  }
  .buys {
    display: block;
    color: var(--ink-2);
  }
  .rung.next .buys {
    color: var(--ink);
  }
  .needs {
    margin-block-start: 0.1rem;
    line-height: 1.75;
  }
  .needs::before {
    content: 'needs ';
  }
  .path-page {
    padding-block: 0.55rem;
  }
  .sharper {
    margin-block-start: 0.5rem;
    line-height: 1.75;
  }
  @media print {
    .needs,
    .sharper {
      display: none;
    }
    .path,
    .lies-here {
      font-size: 0.8125rem;
      break-inside: avoid;
    }
    .lies-here strong {
      font-size: 1rem;
    }
    .path {
      margin-block-start: 0.5rem;
    }
    .rung {
      padding-block: 0.1rem;
    }
  }
`;
