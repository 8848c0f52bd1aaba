import {
  grayOf,
  motionBlur,
  type FoundRound,
  type FoundString,
  type Gray,
  type MotionBlur,
} from '../../../photo/find';
import { refusal, type Result } from '../../../physics';
import type { Place } from '../surfaceView';
import { roundIn, stringIn } from './findEdges';

/** What reads the edges of a crop: on the page or in a worker, alike. Places are in the crop's pixels. */
export interface EdgeReader {
  string(crop: ImageBitmap, upper: Place, lower: Place): Promise<Result<FoundString>>;
  round(crop: ImageBitmap, near: Place, large: boolean): Promise<Result<FoundRound>>;
  blur(crop: ImageBitmap): Promise<Result<MotionBlur>>;
}

/** The luminance of a crop; null where the browser gives no canvas for it. The crop is closed. */
function grayIn(crop: ImageBitmap): Gray | null {
  const { width, height } = crop;
  const pen = new OffscreenCanvas(width, height).getContext('2d', { willReadFrequently: true });
  pen?.drawImage(crop, 0, 0);
  crop.close();
  return pen ? grayOf(pen.getImageData(0, 0, width, height).data, width, height) : null;
}

const UNREADABLE = refusal(
  'unreadable',
  'Picture: needs to be read by the page; this browser does not let it. Place the marks by eye.',
);

export const edgeReader: EdgeReader = {
  async string(crop, upper, lower) {
    const gray = grayIn(crop);
    return gray ? stringIn(gray, upper, lower) : UNREADABLE;
  },
  async round(crop, near, large) {
    const gray = grayIn(crop);
    return gray ? roundIn(gray, near, large) : UNREADABLE;
  },
  async blur(crop) {
    const gray = grayIn(crop);
    return gray ? motionBlur(gray) : UNREADABLE;
  },
};
