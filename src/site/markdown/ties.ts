/**
 * Finished HTML of a chapter with its numbers held to their units, so that no line ends between the two:
 * a no-break space before a unit, around ±, and in "chapter 3", "part C", "page 28". Formulas, code and drawings
 * stay as they are. The marks by which the tests find a number ("57<!--=bramble.hub-->") and those meant for the
 * formatter are dropped.
 */
export function tieNumbers(html: string): string {
  let tied = '';
  let before = '';
  let untouched = 0;
  for (const piece of html.replace(SOURCE_MARK, '').match(PIECE) ?? []) {
    if (!piece.startsWith('<')) {
      tied += untouched ? piece : tie(piece, before);
      before = piece;
      continue;
    }
    tied += piece;
    // Inside a piece left alone every element counts, so that its own end is found.
    if (untouched) untouched += depthChange(piece);
    else if (LEFT_ALONE.test(piece)) untouched = 1;
  }
  return tied;
}

const SOURCE_MARK = /<!--=[^>]*-->|<!-- prettier-[a-z-]+ -->\n?/g;
const PIECE = /<!--[\s\S]*?-->|<[^>]*>|[^<]+/g;
const LEFT_ALONE = /^<(?:code|pre|svg|math)\b|^<span class="katex[ "-]/;
const VOID = /^<(?:br|img|hr|input|wbr)\b|\/>$|^<!/;

function depthChange(tag: string): number {
  if (VOID.test(tag)) return 0;
  return tag.startsWith('</') ? -1 : 1;
}

const UNIT = '(?:mm|cm|m|kg|g|N|s|px|pixels?|degrees|minutes)(?![\\p{L}\\p{N}])|%';
const BEFORE_UNIT = new RegExp(`(?<=[\\d°])\\s+(?=${UNIT}|±)`, 'gu');
const AFTER_SIGN = /(?<=±)\s+(?=\d)/g;
const AFTER_PLACE = /(?<=\b(?:[Cc]hapter|[Pp]art|[Pp]age))\s+(?=(?:\d+|[A-H])\b)/g;

/** Text with its ties; `before` is the text in front of it, whose last digit a tag may part from its unit. */
function tie(text: string, before: string): string {
  const last = before.slice(-1);
  return `${last}${text}`
    .replace(BEFORE_UNIT, '\u00a0')
    .replace(AFTER_SIGN, '\u00a0')
    .replace(AFTER_PLACE, '\u00a0')
    .slice(last.length);
}
