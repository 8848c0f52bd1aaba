import { css, html, nothing, svg, type TemplateResult } from 'lit';
import { scaleBar, scaleBarLength, type SideAnswer } from '../../figures';
import { plusMinusPlaceholder } from '../../sheet/given';
import type { BuildState, Picture } from '../../sheet/schema';
import { NO_BREAK, typedNumber, unitSign } from '../shared/format';
import { givensByPath } from '../shared/givensByPath';
import { hangsOf } from '../../sheet/hangs';
import { hookName, pictureName } from './roles';
import { pixelsPerMm, standingScene, type PictureEye } from './scenes';
import type { Place } from './surfaceView';

/** Width the figure is laid out at on paper, px: signs and text keep their size at about 170 mm. */
const PAPER_WIDTH = 640;

/** The standing picture with the answer, as a figure that prints sharp; shown on paper only. */
export function printedFigure(
  picture: Picture,
  url: string,
  answer: SideAnswer,
  eye: PictureEye | null,
): TemplateResult {
  const scale = PAPER_WIDTH / picture.width;
  const height = picture.height * scale;
  const marks = picture.marks
    .filter(({ role }) => role.startsWith('mark '))
    .map(({ role, x, y, counted }) => ({
      at: { x: x * scale, y: y * scale },
      key: role.slice(5),
      aside: !counted,
    }));
  const place = ({ x, y }: Place): Place => ({ x: x * scale, y: y * scale });
  const overlay = eye
    ? standingScene({ ...answer, marks }, eye)(place, { width: PAPER_WIDTH, height }, false)
    : nothing;
  const perMm = eye && answer.cg ? pixelsPerMm(eye, answer.cg) * scale : null;
  return html`<svg
    class="figure printed-figure"
    viewBox="0 0 ${PAPER_WIDTH} ${height.toFixed(1)}"
    aria-hidden="true"
  >
    ${svg`<image href=${url} x="0" y="0" width=${PAPER_WIDTH} height=${height.toFixed(1)}></image>`}
    ${overlay} ${perMm ? scaleBar({ x: 16, y: height - 26 }, perMm, scaleBarLength(perMm, 140)) : nothing}
  </svg>`;
}

/** The givens as a list with underlined numbers, for paper: folds do not print. */
export function printedGivens(state: BuildState): TemplateResult {
  const givens = givensByPath(state);
  const line = (label: string, path: string) => {
    const placed = givens.get(path);
    if (!placed || placed.given.text.trim() === '') return nothing;
    const { given, field } = placed;
    const plusMinus = given.plusMinus.trim() || plusMinusPlaceholder(field, given.unit, true);
    return html`<tr>
      <th scope="row">${label}</th>
      <td class="number">
        <u>${typedNumber(given.text)}</u
        >${`${NO_BREAK}${unitSign(given.unit)}${plusMinus ? `${NO_BREAK}±${NO_BREAK}${plusMinus}` : ''}`}
      </td>
    </tr>`;
  };
  return html`<table class="printed-givens" aria-hidden="true">
    <caption>
      Givens, underlined: typed or marked
    </caption>
    <tbody>
      ${
        state.body === 'object'
          ? line('Distance of the two points', 'scaleDistance')
          : html`${line('Wheelbase', 'dimensions/wheelbase')}
            ${line('Rear tire radius', 'dimensions/rearTireRadius')}
            ${line('Front tire radius', 'dimensions/frontTireRadius')}
            ${state.scaleFrom === 'two points' ? line('Distance of the two points', 'scaleDistance') : nothing}`
      }
      ${hangsOf(state).map((hang) => {
        const hook = state.hooks.find(({ id }) => id === hang.hook);
        if (!hook || hook.source !== 'ruler') return nothing;
        const index = state.hooks.indexOf(hook);
        const name = `${pictureName(state, hang)}, ${hookName(state, hook).toLowerCase()}`;
        return html`${line(`${name}, ahead`, `hooks/${index}/ahead`)}
        ${line(`${name}, height`, `hooks/${index}/height`)}`;
      })}
    </tbody>
  </table>`;
}

export const printedStyles = css`
  .printed {
    display: none;
  }
  @media print {
    .printed {
      display: block;
      margin-block-end: 0.6rem;
      break-inside: avoid;
    }
    .printed-figure {
      width: 100%;
      max-height: 90mm;
    }
    .printed-givens {
      font-size: 0.8125rem;
    }
    .printed-givens th,
    .printed-givens td {
      padding-block: 0.1rem;
    }
  }
`;
