import { centerOfGravitySign } from '../signs.ts';
import type { Handout } from './handout.ts';
import { scaleBar, STICKER_SIZES, stickerCount, stickerStrip } from './stickers.ts';

/** Which size for which picture, by diameter in mm. */
const SIZE_WORDS: Readonly<Record<number, string>> = {
  6: 'small models; the truck fills the picture',
  8: 'small trail trucks, camera at about 1.5 m',
  10: 'camera at 2 to 3 m, or an older phone',
  12: 'still farther away, poor light',
};

const rows = STICKER_SIZES.map(
  (size) => `<div class="sticker-row">
<p><b>${size} mm</b> <span>${stickerCount(size)} rounds: ${SIZE_WORDS[size] ?? ''}</span></p>
${stickerStrip(size)}
</div>`,
).join('\n');

/** One printed sheet of rounds for body marks, with what to do with them. */
export const stickerSheet: Handout = {
  page: 'sticker-sheet.html',
  title: 'Stickers for body marks',
  description: 'A sheet to print: black and white rounds in four sizes, with a bar to check the printer.',
  styles: ['/src/site/styles/stickerSheet.css'],
  modules: ['/src/site/browser/printButton.ts'],
  chapter: '03-resultant-lines.md',
  html: `<div class="screen-only handout-head">
<h1 id="title">Stickers for body marks</h1>
<p class="lead">One sheet to print on A4 or US Letter. The page finds the middle of a round more closely than a hand can
tap it.</p>
<p>Matte paper, black ink, 100 % (“actual size”). Then lay a ruler on the bar. On a screen the sheet is not to
scale.</p>
<ul class="buttons"><li><button type="button" data-print hidden>Print this sheet</button></li></ul>
</div>
<article class="paper" aria-label="The sheet">
<p class="paper-head">${centerOfGravitySign}<b>Plumb Low</b> <span>Stickers for body marks</span></p>
<section class="paper-part" aria-labelledby="check-the-printer">
<h2 id="check-the-printer">Check the printer</h2>
${scaleBar()}
<p>Lay a ruler on the bar: 100 mm above, 4 in below. If it is off, print again at 100 %, not “fit to page”. A sheet
that is a little too large or too small still serves: a round’s middle stays its middle, and nothing in the notebook asks
for a sticker’s size.</p>
</section>
<section class="paper-part" aria-labelledby="cut-them-out">
<h2 id="cut-them-out">Cut along the lines</h2>
<p>Keep the white rim: on a dark body it is what sets the black round off.</p>
${rows}
</section>
<section class="paper-part" aria-labelledby="where-to-put-them">
<h2 id="where-to-put-them">Where to put them</h2>
<ul>
<li>On the sprung body, never on a wheel, an axle or a flap that gives.</li>
<li>At least four; far apart, up and down as well as along; not in one line. Two close to the hubs help.</li>
<li>Flat and square to the camera, on plain ground, clear of edges and of other round things.</li>
<li>The same ones in sight in every picture, standing and hanging.</li>
<li>Measure how far each lies from the center plane, toward the camera, and type it as its depth.</li>
</ul>
</section>
</article>`,
};
