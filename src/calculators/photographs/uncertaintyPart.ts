import { html, nothing, type TemplateResult } from 'lit';
import { COVERAGE } from '../../physics';
import type { BenchAnswer, BudgetRow } from '../../answer/benchAnswer';
import { budgetTable } from '../shared/budgetTable';
import { lower } from './words';

/** What each kind of reading is called in the table, and what makes it better. */
const WORDS: Readonly<Record<BudgetRow['source'], readonly [name: string, remedy: string]>> = {
  'wheelbase and scale': [
    'Wheelbase and scale',
    'Measure the wheelbase again, hub to hub, with a steel ruler.',
  ],
  'ground and tire radius': [
    'Ground and tire radius',
    'Measure hub above ground on both axles: it fixes where the ground lies in the picture.',
  ],
  'body marks': [
    'Body marks',
    'Add body marks, far apart, or set each again in the loupe at the same sharp corner.',
  ],
  string: [
    'String marks',
    'Mark the string as high and as low as you can see it, in the middle of its width.',
  ],
  'hook place': ['Hooks by ruler', 'Measure the hooks again, from the rear hub and from the ground.'],
  'hook marks': [
    'Hooks marked in pictures',
    'Measure the hooks with a ruler, and set their marks again in the loupe.',
  ],
  depths: ['Depths', 'Measure how far marks, hubs and hooks stand from the center plane.'],
  'camera distance': [
    'Camera distance',
    'Measure from the phone to the truck, or stand farther back and zoom.',
  ],
  lens: [
    'Bending by the lens',
    'Stand farther back, so that truck and string stay near the picture’s middle.',
  ],
  'view off square': [
    'View off square, twist',
    'Stand square to the side, and turn the hanging truck square to the camera.',
  ],
  droop: ['Droop of the axles', 'Lock the suspension, or weigh the axles and mark the hubs with care.'],
  'lateral place': [
    'Lateral place',
    'Weigh the wheels one by one: the truck leans on the string by its offset.',
  ],
  scales: ['Scales', 'Weigh again on scales with finer steps, brakes released.'],
  'axle lift': ['Axle lift', 'Lift higher, to 20° or more, and read scale and lift again.'],
  'hang by ruler': ['Hang by ruler', 'Mark the string’s line far from the hook and measure it again.'],
  board: ['Tilt board', 'Tilt again to each side; take the angle where it just goes over.'],
  'tip line': [
    'Where the tire stands',
    'Where between its middle and its edge a tire carries is not known; hangs and board together tell.',
  ],
  balance: ['Balance on an edge', 'Balance again on a thinner edge.'],
  'parts list': ['Parts list', 'Weigh the heaviest parts and measure their places again.'],
  sizes: ['Sizes of the truck', 'Measure wheelbase, tracks and hub heights again with a steel ruler.'],
  ruler: ['Ruler’s zero', 'Measure from a mark on the ruler instead of its worn end.'],
  level: ['Level’s zero', 'Turn the level round and take the mean of both readings.'],
};

/** The same of an object, where the words are a truck's. */
const OWN_WORDS: Partial<typeof WORDS> = {
  'wheelbase and scale': ['Scale', 'Measure the distance of the two points again, with a steel ruler.'],
  'body marks': [
    'Marks on the object',
    'Add marks, far apart, or set each again in the loupe at the same sharp corner.',
  ],
  depths: ['Depths', 'Measure how far marks and scale points stand in front of the object’s middle.'],
  'hook place': ['Where it is tied', 'Tie the string midway between its near and its far side.'],
  'lateral place': [
    'How deep the center lies',
    'Photograph the side behind which it is as nearly alike, near and far, as it can be.',
  ],
  'camera distance': [
    'Camera distance',
    'Measure from the phone to the object, or stand farther back and zoom.',
  ],
  lens: [
    'Bending by the lens',
    'Stand farther back, so that object and string stay near the picture’s middle.',
  ],
  'view off square': [
    'View off square, twist',
    'Stand square to it, and turn the hanging object square to the camera.',
  ],
};

/** Sources below this share of the largest stand together in one row. */
const SMALL = 0.2;
/** Less than this is no row at all, mm. */
const WORTH_A_ROW = 0.05;
const mm = (u: number): number => COVERAGE * u * 1000;

/** "What makes the ±, in mm", with what to do about the largest source; nothing while there is no answer. */
export function uncertaintyPart(answer: BenchAnswer): TemplateResult | typeof nothing {
  if (!answer.cg.ok) return nothing;
  const { ahead, height, axes } = answer.cg.value;
  const words = axes === 'own' ? { ...WORDS, ...OWN_WORDS } : WORDS;
  const size = (row: BudgetRow): number => Math.hypot(row.ahead, row.height);
  const sorted = answer.budget.toSorted((a, b) => size(b) - size(a));
  const [worst] = sorted;
  const large = worst ? sorted.filter((row) => size(row) >= SMALL * size(worst)) : [];
  const others = sorted.slice(large.length);
  const root = (pick: (row: BudgetRow) => number) => Math.hypot(...others.map(pick));
  const small = { ahead: root((row) => row.ahead), height: root((row) => row.height) };
  const rows = [
    ...large.map((row) => ({ name: words[row.source][0], ahead: row.ahead, height: row.height })),
    ...(mm(Math.max(small.ahead, small.height)) >= WORTH_A_ROW ? [{ name: 'All others', ...small }] : []),
  ];
  const largest = Math.max(...rows.map((row) => Math.max(row.ahead, row.height)), 1e-12);
  return html`<div class="budget-row">
    ${budgetTable(
      'What makes the ±, in mm',
      axes === 'own' ? ['along', 'across'] : ['ahead', 'height'],
      rows.map((row) => ({
        source: row.name,
        cells: [mm(row.ahead).toFixed(1), mm(row.height).toFixed(1)],
        share: Math.max(row.ahead, row.height) / largest,
      })),
      [mm(ahead.u).toFixed(1), mm(height.u).toFixed(1)],
    )}
    ${
      worst
        ? html`<p class="budget-advice">
            The largest part comes from: ${lower(words[worst.source][0])}. ${words[worst.source][1]}
          </p>`
        : nothing
    }
  </div>`;
}
