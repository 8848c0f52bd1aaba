import type { CameraHold } from '../../demo/world/camera';
import { random } from '../../demo/world/random';
import type { Random } from '../../demo/world/random';
import type { Film, Seen } from './shots';

/** By what laws photographs are taken and numbers typed: those that the sheet states or takes where nothing is typed. */

/** A ± holds 19 times in 20. */
export const COVERAGE = 1.96;

/** What may be left without error, one at a time, to see what a misfit comes from. */
export type Effect =
  | 'roll'
  | 'distortion'
  | 'depths'
  | 'ruler'
  | 'oblique'
  | 'twist'
  | 'marks'
  | 'lateral'
  | 'sticking'
  | 'distance';

export type Without = ReadonlySet<Effect>;

/** Two streams, so that a number typed more leaves the photographs as they are. */
export interface Streams {
  readonly camera: Random;
  readonly typed: Random;
}

export const streamsOf = (draws: number, n: number): Streams => ({
  camera: random(100_000 * draws + n, 'photographs: camera'),
  typed: random(100_000 * draws + n, 'photographs: typed'),
});

/** How a case is photographed. */
export interface Camerawork {
  /** Number that its draws begin from. */
  readonly draws: number;
  /** m */
  readonly distance: (draw: Random) => number;
  /** Degrees. */
  readonly roll: (draw: Random) => number;
  /** Radial coefficient of the lens, one for all pictures of a set. */
  readonly radial: (draw: Random) => number;
  readonly film: '2 megapixels' | '3 megapixels' | '12 megapixels';
  /** px; of every picture alike. Left out: zoomed. */
  readonly focal?: number;
  /** How much a pixel shows when zoomed, m: as much as fills the picture with the body and some string. */
  readonly zoomed?: Readonly<Record<Seen, readonly [number, number]>>;
}

/** The sheet's own law: one over the distance is normal about 1/1.5 m with u of a third, kept to what is believable. */
export const anyDistance = (least: number, most: number) => (draw: Random) => {
  let distance = 0;
  while (!(distance >= least && distance <= most))
    distance = 1.5 / (1 + ((0.98 / COVERAGE) * draw.normal()) / 1.5);
  return distance;
};
export const anyRoll = (draw: Random): number => draw.between(-7, 7);
/** Phones straighten their pictures; what is left bends the corners by up to 3 %, either way. */
export const anyLens = (draw: Random): number => (0.03 / COVERAGE) * draw.normal();

const RADIANS = Math.PI / 180;
/** Of both angles off square and of the twist, where the reader says nothing: ±5.9°. */
const OBLIQUE_U = (5.9 / COVERAGE) * RADIANS;
const USUAL_ZOOM = { right: [0.0005, 0.0007], rear: [0.0005, 0.0007] } as const;

/** How well the focal length of one picture is that of another by the same camera: focusing moves the lens. */
const FOCUS_BREATHING = 0.005;

/** Camera and twist of one photograph. */
export interface Taken {
  readonly hold: CameraHold;
  readonly film: Film;
  /** rad */
  readonly twist: number;
  /** Of the aim, m. */
  readonly off: readonly [number, number];
}

export function take(
  work: Camerawork,
  { seen, hanging, radial }: { readonly seen: Seen; readonly hanging: boolean; readonly radial: number },
  draw: Random,
  without: Without,
): Taken {
  const distance = work.distance(draw);
  const zoomed = distance / draw.between(...(work.zoomed ?? USUAL_ZOOM)[seen]);
  const [yaw, pitch, roll] = [draw.normal(), draw.normal(), work.roll(draw)];
  const off = [draw.between(-0.015, 0.015), draw.between(-0.012, 0.012)] as const;
  const twist = draw.normal();
  const focal = (work.focal ?? zoomed) * (1 + FOCUS_BREATHING * draw.normal());
  return {
    hold: {
      distance,
      yaw: without.has('oblique') ? 0 : OBLIQUE_U * yaw,
      pitch: without.has('oblique') ? 0 : OBLIQUE_U * pitch,
      roll: without.has('roll') ? 0 : roll * RADIANS,
      perPixel: distance / focal,
    },
    film: { ...sizeOf(work, hanging), radial: without.has('distortion') ? 0 : radial },
    twist: without.has('twist') ? 0 : OBLIQUE_U * twist,
    off,
  };
}

const sizeOf = ({ film }: Camerawork, hanging: boolean): Pick<Film, 'width' | 'height'> => {
  // Stored turned, 4032 wide, and shown upright as its orientation says: portrait, standing as well.
  if (film === '12 megapixels') return { width: 3024, height: 4032 };
  const [short, long] = film === '3 megapixels' ? [1536, 2048] : [1200, 1600];
  return hanging ? { width: short, height: long } : { width: long, height: short };
};
