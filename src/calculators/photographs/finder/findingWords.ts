import { fixed, NO_BREAK } from '../../shared/format';
import { misses, type Finding, type Standing } from './finding';

/** A finding in words: a few bold ones, and the sentence that goes on from them. */
export interface FindingWords {
  readonly lead: string;
  readonly rest: string;
}

const pixels = (value: number): string => `${fixed(value, 1)}${NO_BREAK}px`;

/** Less than this is no distance at the one decimal that is shown, pixels. */
const NOTHING = 0.05;

/** "0.8 px", "0.8 px (0.2 mm)" where the picture's scale is known. */
function distance(value: number, pixelsPerMm: number | null): string {
  if (pixelsPerMm === null) return pixels(value);
  return `${pixels(value)} (${fixed(value / pixelsPerMm, 1)}${NO_BREAK}mm)`;
}

/**
 * What was found, how wide, how far from the reader's marks, and how sure; or why nothing is. `pixelsPerMm` is the
 * picture's scale at the truck, null while it is not known.
 */
export function findingWords(finding: Finding, standing: Standing, pixelsPerMm: number | null): FindingWords {
  const string = finding.of === 'string';
  if (standing === 'unsure' || !finding.shape)
    return {
      lead: string ? 'No string is sure here.' : 'No round is sure here.',
      rest: `${asSentence(finding.unsure)} Your ${string ? 'marks stay' : 'mark stays'} where you set ${string ? 'them' : 'it'}.`,
    };
  const far = misses(finding);
  const plusMinus = `±${NO_BREAK}${largestPlusMinus(finding)}${NO_BREAK}px`;
  return finding.shape.kind === 'string'
    ? stringWords(finding.shape.string.width, far, standing, plusMinus, pixelsPerMm)
    : roundWords(finding.shape.round.diameter, far[0] ?? 0, standing, plusMinus, pixelsPerMm);
}

/**
 * "String: needs clear ground; … Mark it by hand, or …" as a sentence that goes on from the bold words: "It needs
 * clear ground; … Better …" The marks are there already, by hand.
 */
const asSentence = (message: string): string =>
  message
    .replace(/^(?:String|Round mark|Picture): /u, 'It ')
    .replace(/ (?:Mark|Place) it by hand(?:\.$|, or (\w))/u, (_, first?: string) =>
      first === undefined ? '' : ` Better ${first}`,
    );

const largestPlusMinus = ({ placed }: Finding): string =>
  fixed(Math.max(...placed.map(({ plusMinus }) => Number(plusMinus))), 1);

function stringWords(
  width: number,
  far: readonly number[],
  standing: Standing,
  plusMinus: string,
  pixelsPerMm: number | null,
): FindingWords {
  const [upper = 0, lower = 0] = far;
  const on = Math.max(upper, lower) < NOTHING;
  const both = `${distance(upper, pixelsPerMm)} and ${distance(lower, pixelsPerMm)}`;
  if (standing === 'taken')
    return {
      lead: `String found, ${pixels(width)} wide.`,
      rest: on
        ? `Your marks stood on its middle; ${plusMinus}.`
        : `Your marks moved ${both} onto its middle; now ${plusMinus}.`,
    };
  return {
    lead: on ? 'The string runs through your marks.' : 'The string runs beside your marks,',
    rest: on
      ? `It is ${pixels(width)} wide, ${plusMinus}. Your own marks stand.`
      : `${both} off the upper and the lower; ${pixels(width)} wide, ${plusMinus}. Your own marks stand.`,
  };
}

function roundWords(
  diameter: number,
  far: number,
  standing: Standing,
  plusMinus: string,
  pixelsPerMm: number | null,
): FindingWords {
  if (standing === 'taken')
    return {
      lead: 'Snapped to the round,',
      rest: `${distance(far, pixelsPerMm)} from your mark. It is ${pixels(diameter)} wide; ${plusMinus}.`,
    };
  return {
    lead: 'A round lies here,',
    rest: `${pixels(diameter)} wide, its center ${distance(far, pixelsPerMm)} from your mark, ${plusMinus}. Your own mark stands.`,
  };
}
