/** Which body mark lies elsewhere than all other readings say. */

/** A misplaced body mark. */
export interface MisplacedMark {
  /** Which one; null where it is not clear enough which. */
  readonly key: string | null;
  /** How far it lies from where everything else puts it, in the plane of the marks, m. */
  readonly off: number;
}

/**
 * A mark is named when its misfit would come by chance once in 1,000 marks, Baarda's alpha: chi-squared with two
 * degrees of freedom.
 */
const NAMED_BEYOND = -2 * Math.log(0.001);
/** And when it is 20 times as likely to be the misplaced one as any other mark. */
const NAMED_BEFORE = 2 * Math.log(20);

/** A body mark's reading in one picture, and what it misses by without its own say. */
export interface Suspect {
  readonly picture: string;
  readonly key: string;
  readonly off: number;
  readonly chiSquaredLess: number;
}

/** The most suspect mark of each picture where it is so beyond chance and no other picture's mark explains it. */
export function misplacedMarks(
  suspects: readonly Suspect[],
  references: ReadonlySet<string>,
): Map<string, MisplacedMark> {
  const misplaced = new Map<string, MisplacedMark>();
  for (const picture of new Set(suspects.map((suspect) => suspect.picture))) {
    const own = suspects
      .filter((suspect) => suspect.picture === picture)
      .toSorted((p, q) => q.chiSquaredLess - p.chiSquaredLess);
    const [first, second] = own;
    if (!first || !(first.chiSquaredLess > NAMED_BEYOND)) continue;
    // One misplaced mark makes its namesakes in other pictures suspect as well, each less than itself. Between a
    // standing and one hanging picture nothing tells which; the hanging one is the harder to mark.
    const outdone = suspects.some(
      ({ picture: other, key, chiSquaredLess }) =>
        other !== picture &&
        key === first.key &&
        chiSquaredLess + (references.has(picture) ? NAMED_BEFORE : 0) >
          first.chiSquaredLess + (references.has(other) ? NAMED_BEFORE : 0),
    );
    if (outdone) continue;
    // Three marks misfit alike whichever of them is misplaced.
    const clear = own.length >= 4 && second && first.chiSquaredLess - second.chiSquaredLess > NAMED_BEFORE;
    // The least that would explain it, where any of several would.
    const least = Math.min(...own.filter((each) => each.chiSquaredLess > NAMED_BEYOND).map(({ off }) => off));
    misplaced.set(picture, clear ? { key: first.key, off: first.off } : { key: null, off: least });
  }
  return misplaced;
}
