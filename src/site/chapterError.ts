/**
 * A mistake in a chapter or formula file, told apart from a bug of the build.
 * The message names the file, what is wrong, and what to do next.
 */
export class ChapterError extends Error {
  override readonly name = 'ChapterError';

  constructor(
    readonly file: string,
    readonly problem: string,
  ) {
    super(`${file}: ${problem}`);
  }
}
