import { annotatedPicture, type SideAnswer } from '../../figures';
import { pictureBlob } from '../../sheet/bench';
import type { BuildState, Picture } from '../../sheet/schema';
import { inPicture, pixelsPerMm, type PictureEye } from './scenes';

/**
 * Saves the standing picture with the answer painted into it as a full-size PNG. Gives a sentence for the reader
 * where that cannot be done.
 */
export async function savePicture(
  state: BuildState,
  picture: Picture,
  answer: SideAnswer,
  eye: PictureEye,
  caption: readonly string[],
): Promise<string> {
  const stored = await pictureBlob(picture.id);
  if (!stored) return 'Standing picture: its file is not in this browser. Add the picture again.';
  const bitmap = await createImageBitmap(stored);
  try {
    const blob = await annotatedPicture({
      picture: bitmap,
      width: picture.width,
      height: picture.height,
      answer: {
        ...answer,
        marks: picture.marks
          .filter(({ role }) => role.startsWith('mark '))
          .map(({ role, x, y, counted }) => ({ at: { x, y }, key: role.slice(5), aside: !counted })),
      },
      project: (place) => inPicture(eye, place),
      sense: eye.nose,
      pixelsPerMm: answer.cg ? pixelsPerMm(eye, answer.cg) : 0,
      caption,
    });
    download(blob, `${fileName(`${caption[0] ?? 'truck'} ${state.date}`)}.png`);
    return '';
  } catch (error) {
    return error instanceof Error ? error.message : 'The picture could not be written.';
  } finally {
    bitmap.close();
  }
}

const fileName = (words: string): string =>
  words
    .trim()
    .toLowerCase()
    .replace(/[^\p{L}\p{N}]+/gu, '-')
    .replace(/^-|-$/g, '') || 'truck';

function download(blob: Blob, name: string): void {
  const url = URL.createObjectURL(blob);
  const link = document.createElement('a');
  link.href = url;
  link.download = name;
  link.click();
  // The browser has taken the file by the next turn of events; a minute is more than enough.
  setTimeout(() => URL.revokeObjectURL(url), 60_000);
}
