import { type Length, meters, radians } from '../quantities';
import type { Suspected } from './slipRows';
import type {
  Axle,
  Measured,
  PictureLinesReading,
  TruckBench,
  TruckReading,
} from '../estimate/truckReadings';

/** Slips that touch more than one number, or what a number belongs to: the bench as it would be without them. */

const replaced = (bench: TruckBench, by: (reading: TruckReading) => TruckReading): TruckBench => ({
  ...bench,
  readings: bench.readings.map(by),
});

const withReading = (bench: TruckBench, reading: TruckReading): TruckBench =>
  replaced(bench, (each) => (each.id === reading.id ? reading : each));

const OPPOSITE = {
  left: 'right',
  right: 'left',
  'nose up': 'nose down',
  'nose down': 'nose up',
} as const;

const other = (axle: Axle): Axle => (axle === 'front' ? 'rear' : 'front');

/** Wheel scales with their sides changed: both axles, or one. A tilt the other way, alone or with its counterpart. */
export function otherSide({ bench, reading }: Suspected): readonly TruckBench[] {
  if (reading?.kind === 'wheel scales') {
    const { frontLeft, frontRight, rearLeft, rearRight } = reading;
    const front = { frontLeft: frontRight, frontRight: frontLeft };
    const rear = { rearLeft: rearRight, rearRight: rearLeft };
    return [{ ...front, ...rear }, front, rear].map((sides) => withReading(bench, { ...reading, ...sides }));
  }
  return reading?.kind === 'tilt' && (reading.toward === 'left' || reading.toward === 'right')
    ? otherWay(bench, reading)
    : [];
}

function otherWay(
  bench: TruckBench,
  reading: TruckReading & { readonly kind: 'tilt' },
): readonly TruckBench[] {
  const turned = { ...reading, toward: OPPOSITE[reading.toward] };
  const alone = withReading(bench, turned);
  const counterparts = bench.readings.filter((each) => each.kind === 'tilt' && each.toward === turned.toward);
  return [
    alone,
    ...counterparts.flatMap((each) =>
      each.kind === 'tilt' ? [withReading(alone, { ...each, toward: reading.toward })] : [],
    ),
  ];
}

/** Both tracks narrower by the tread. */
export function narrowerTracks({ bench }: Suspected): readonly TruckBench[] {
  const { dimensions: d } = bench;
  const { frontTrack, rearTrack, treadWidth } = d;
  if (!frontTrack || !rearTrack || !treadWidth) return [];
  const narrower = ({ value, u }: Measured<Length>): Measured<Length> => ({
    value: meters(value - treadWidth.value),
    u: Math.hypot(u, treadWidth.u),
  });
  return [
    { ...bench, dimensions: { ...d, frontTrack: narrower(frontTrack), rearTrack: narrower(rearTrack) } },
  ];
}

/** What is read of front and rear, exchanged. */
export function exchanged({ bench, reading, id }: Suspected): readonly TruckBench[] {
  const { dimensions: d } = bench;
  switch (reading?.kind) {
    case 'axle scales':
      return [withReading(bench, { ...reading, front: reading.rear, rear: reading.front })];
    case 'wheel scales': {
      const { frontLeft, frontRight, rearLeft, rearRight } = reading;
      return [
        withReading(bench, {
          ...reading,
          ...{ frontLeft: rearLeft, frontRight: rearRight, rearLeft: frontLeft, rearRight: frontRight },
        }),
      ];
    }
    case 'tilt':
      return reading.toward === 'nose up' || reading.toward === 'nose down' ? otherWay(bench, reading) : [];
    case 'hang':
      return reading.droop && id.endsWith('Droop')
        ? [
            withReading(bench, {
              ...reading,
              droop: { front: reading.droop.rear, rear: reading.droop.front },
            }),
          ]
        : [];
    default:
  }
  const pairs = [
    ['frontTrack', 'rearTrack'],
    ['frontTireRadius', 'rearTireRadius'],
  ] as const;
  for (const [one, two] of pairs) {
    const [front, rear] = [d[one], d[two]];
    if ((id === one || id === two) && front && rear)
      return [{ ...bench, dimensions: { ...d, [one]: rear, [two]: front } }];
  }
  const [front, rear] = [d.frontAxleShare, d.rearAxleShare];
  return id.endsWith('AxleShare') && front && rear
    ? [{ ...bench, dimensions: { ...d, frontAxleShare: rear, rearAxleShare: front } }]
    : [];
}

/** A lift with the scale under the other axle, with the other axle raised, and both. */
export function wrongAxle({ bench, reading }: Suspected): readonly TruckBench[] {
  if (reading?.kind !== 'axle lift') return [];
  const scale = { scaleUnder: other(reading.scaleUnder) };
  const raised = { raised: other(reading.raised) };
  return [scale, raised, { ...scale, ...raised }].map((change) =>
    withReading(bench, { ...reading, ...change }),
  );
}

const linesOf = ({ bench, id, role }: Suspected): PictureLinesReading | undefined =>
  role === 'line'
    ? bench.readings.find(
        (reading): reading is PictureLinesReading =>
          reading.kind === 'picture lines' && reading.lines.some((line) => line.id === id),
      )
    : undefined;

/** A line mirrored about the upright of the truck, at its own place. */
export function mirroredLine(suspected: Suspected): readonly TruckBench[] {
  const reading = linesOf(suspected);
  if (!reading) return [];
  const lines = reading.lines.map((each) =>
    each.id === suspected.id
      ? { ...each, line: { ...each.line, angle: radians(mirrored(each.line.angle)) } }
      : each,
  );
  return [withReading(suspected.bench, { ...reading, lines })];
}

const mirrored = (angle: number): number => Math.atan2(Math.sin(angle), -Math.cos(angle));

/** The hang from each other hook, or the line of a picture through each other line's place. */
export function otherHooks(
  suspected: Suspected,
): readonly { readonly bench: TruckBench; readonly hook: string }[] {
  const { bench, reading, id } = suspected;
  const pictures = linesOf(suspected);
  if (pictures) {
    const own = pictures.lines.find((line) => line.id === id);
    if (!own) return [];
    const places = [
      ...pictures.lines.filter((line) => line.id !== id).map((line) => [line.id, line.line.through] as const),
      ...bench.hooks.map(({ id: hook, x, z }) => [hook, { x: x.value, z: z.value }] as const),
    ];
    return places.map(([hook, through]) => {
      const lines = pictures.lines.map((line) =>
        line.id === id ? { ...line, line: { ...line.line, through } } : line,
      );
      return { hook, bench: withReading(bench, { ...pictures, lines }) };
    });
  }
  const named = /^hook (.+)\.[xyz]$/.exec(id)?.[1];
  const hangs = bench.readings.filter((each) => each.kind === 'hang');
  const suspects = hangs.filter((hang) => hang.id === reading?.id || hang.hook === named);
  return suspects.flatMap((hang) =>
    bench.hooks
      .filter((hook) => hook.id !== hang.hook)
      .map((hook) => ({ hook: hook.id, bench: withReading(bench, { ...hang, hook: hook.id }) })),
  );
}
