import { centerOfGravitySign } from '../signs.ts';
import type { Handout } from './handout.ts';
import {
  PICTURE_PIXELS,
  scaleBar,
  STICKER_SIZES,
  stickerCount,
  stickerStrip,
  widestPicture,
} from './stickers.ts';

const rows = STICKER_SIZES.map(
  (size) => `<div class="sticker-row">
<p><b>${size} mm</b> <span>${stickerCount(size)} rounds, where the picture shows up to ${widestPicture(size).toFixed(1)} m from side to side</span></p>
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
<p>Keep the white rim: on a dark body it is what sets the black round off. In the picture a round should be 16 pixels across or
more; the widths below are for pictures of 12 megapixels, ${PICTURE_PIXELS.toLocaleString('en-US')} pixels wide. Half as many pixels, half the width.</p>
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
