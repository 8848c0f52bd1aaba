import { readFileSync } from 'node:fs';
import { agreementOf } from '../../src/answer/agreement';
import { benchAnswer } from '../../src/answer/benchAnswer';
import { changesSeen } from '../../src/answer/changes';
import type { ReadingEntry } from '../../src/answer/readBench';
import { canSee } from '../../src/answer/seen';
import { answerWithout, withCounted } from '../../src/answer/without';
import { project } from '../../src/photo/camera';
import {
  COVERAGE,
  type Angle,
  type Droop,
  type Length,
  type PlaneLine,
  type PlanePoint,
  type Result,
  angleIn,
  chiSquaredProbability,
  compositeCg,
  crossingAngle,
  crossingPoint,
  degrees,
  distanceToLine,
  droopOfCg,
  edgeLimit,
  errorEllipse,
  hangDirection,
  hangLine,
  independent,
  kilograms,
  lengthIn,
  likelySlips,
  limitSlope,
  massIn,
  meetingPoint,
  meters,
  millimeters,
  radians,
  staticStabilityFactor,
  supportPolygon,
  triangleOfLines,
  truckContacts,
  truckTipAngles,
} from '../../src/physics';
import { sheetFromText } from '../../src/sheet/file';
import type { BuildState } from '../../src/sheet/schema';
import { BRAMBLE } from '../demo/world/bramble';
import { massOf } from '../demo/world/truck';
import { printed, signed } from './chapterNumbers';
import { HAMMER_NUMBERS } from './hammerCases';
import { PHOTOGRAPH_NUMBERS, smallestPath, waysToRead } from './photographCases';

/** Every worked-out number the chapters print, by name, worked out again through the physics module. */
const numbers = new Map<string, string>();

const set = (name: string, value: number, decimals: number): void => {
  if (numbers.has(name)) throw new Error(`two numbers are named ${name}`);
  numbers.set(name, printed(value, decimals));
};
const setSigned = (name: string, value: number, decimals: number): void => {
  numbers.set(name, signed(value, decimals));
};
const must = <Value>(result: Result<Value>): Value => {
  if (!result.ok) throw new Error(result.message);
  return result.value;
};
const mm = (value: number): number => lengthIn(meters(value), 'mm');
const deg = (value: number): number => angleIn(radians(value), 'deg');
const at = (x: number, z: number): PlanePoint => ({ x: millimeters(x), z: millimeters(z) });
const lineAt = (through: PlanePoint, angle: Angle): PlaneLine => ({ through, angle });
/** Direction of a string as the slope of its line, −90° to 90°. */
const slopeOf = (direction: Angle): number => {
  const turned = deg(direction);
  return turned <= -90 ? turned + 180 : turned;
};

// Chapter 3, part C: a right triangle of card with legs 200 and 100 mm, its CG a third along each leg.
{
  const cg = at(200 / 3, 100 / 3);
  const sharp = at(200, 0);
  const top = at(0, 100);
  const right = at(0, 0);
  const line = (hook: PlanePoint): PlaneLine => lineAt(hook, must(hangDirection(hook, cg)));
  const meeting = must(crossingPoint(line(sharp), line(top)));
  set('card.x', mm(meeting.x), 1);
  set('card.z', mm(meeting.z), 1);
  const longLeg = lineAt(right, degrees(0));
  const shortLeg = lineAt(right, degrees(90));
  set('card.angleSharp', deg(crossingAngle(line(sharp), longLeg)), 1);
  set('card.angleTop', deg(crossingAngle(line(top), shortLeg)), 1);
  set('card.crossingSharpTop', deg(crossingAngle(line(sharp), line(top))), 1);
  set('card.crossingRightTop', deg(crossingAngle(line(right), line(top))), 1);
}

// Chapter 3, D3.1: two lines, each off sideways by 1 mm.
for (const gamma of [90, 60, 45, 30, 25, 20, 10]) {
  const first = lineAt(at(0, 0), degrees(0));
  const second = lineAt(at(0, 0), degrees(gamma));
  const moved = must(crossingPoint(lineAt(at(0, 1), degrees(0)), second));
  const exact = { angle: 0, offset: 0.001 };
  const point = must(
    meetingPoint([first, second], independent([exact.angle, exact.offset, exact.angle, exact.offset])),
  );
  const ellipse = errorEllipse(point.covariance, 1);
  // At 25° the chapter prints the worst direction only.
  if (gamma !== 25) {
    set(`crossing.one${gamma}`, mm(Math.hypot(moved.x, moved.z)), 1);
    set(`crossing.best${gamma}`, mm(ellipse.semiMinor), 1);
  }
  set(`crossing.worst${gamma}`, mm(ellipse.semiMajor), 1);
}

// Chapter 3: a line turned about its hook by half a degree; by 4° where the picture's edge is taken for upright.
const aside = (turn: number, below: number): number =>
  Math.abs(mm(distanceToLine(lineAt(at(0, 0), degrees(-90 + turn)), at(0, -below))));
set('lever.at100', aside(0.5, 100), 1);
set('lever.at200', aside(0.5, 200), 1);
set('roll.at150', aside(4, 150), 1);
// One of two marks slips by 1 mm across the line that joins them.
for (const span of [60, 250]) {
  set(`marks.turn${span}`, Math.abs(slopeOf(must(hangDirection(at(0, 0), at(span, 1))))), 1);
}

// Bramble, the demo truck, from its parts.
const exact = <Kind extends number>(value: Kind): { value: Kind; u: number } => ({ value, u: 0 });
const bramble = must(
  compositeCg(
    BRAMBLE.parts.map(({ mass, place: [x, y, z] }) => ({
      mass: exact(kilograms(mass)),
      x: exact(meters(x)),
      y: exact(meters(y)),
      z: exact(meters(z)),
    })),
  ),
);
const cg: PlanePoint = { x: bramble.x.value, z: bramble.z.value };
const frontMass = kilograms(massOf(BRAMBLE, 'front axle'));
const rearMass = kilograms(massOf(BRAMBLE, 'rear axle'));
set('bramble.hub', mm(BRAMBLE.frontRadius), 0);
set('bramble.roof', mm(BRAMBLE.shape.roof), 0);
set('bramble.track', mm(BRAMBLE.frontTrack), 0);
set('bramble.mass', massIn(bramble.mass.value, 'g'), 0);
set('bramble.front', massIn(frontMass, 'g'), 0);
set('bramble.rear', massIn(rearMass, 'g'), 0);

const hookAt = (id: string): PlanePoint => {
  const hook = BRAMBLE.hooks.find((candidate) => candidate.id === id);
  if (!hook) throw new Error(`no hook ${id}`);
  const [x, , z] = hook.place;
  return { x: meters(x), z: meters(z) };
};
const trueLine = (id: string): PlaneLine => lineAt(hookAt(id), must(hangDirection(hookAt(id), cg)));

// Chapter 3, part C: how Bramble hangs by the hoop eye; level when its string is square to the ground line.
set('hoop.noseDown', 90 - Math.abs(slopeOf(trueLine('hoop').angle)), 0);

// Chapter 3, D3.2: the third of three lines 6 mm off, each good to ± 3.0 mm.
{
  const lines = ['hood', 'hoop', 'bed'].map(trueLine);
  const report = (third: number): { side: number; move: number; chi: number; chance: number } => {
    const [a, b, last] = lines;
    if (!a || !b || !last) throw new Error('three lines are needed');
    const normal = last.angle + Math.PI / 2;
    const off = lineAt(
      {
        x: meters(last.through.x + third * Math.cos(normal)),
        z: meters(last.through.z + third * Math.sin(normal)),
      },
      last.angle,
    );
    const u = 0.003 / COVERAGE;
    const point = must(meetingPoint([a, b, off], independent([0, u, 0, u, 0, u])));
    return {
      side: mm(must(triangleOfLines([a, b, off])).longestSide),
      move: mm(Math.hypot(point.x - cg.x, point.z - cg.z)),
      chi: point.chiSquared,
      chance: 100 * (point.probability ?? NaN),
    };
  };
  const right = report(0);
  const wrong = report(0.006);
  set('triangle.trueSide', right.side, 1);
  set('triangle.trueMove', right.move, 1);
  set('triangle.trueChi', right.chi, 1);
  set('triangle.trueChance', right.chance, 0);
  set('triangle.side', wrong.side, 1);
  set('triangle.move', wrong.move, 1);
  set('triangle.chi', wrong.chi, 1);
  set('triangle.chance', wrong.chance, 1);
  // Where one reading in twenty exceeds chi-squared with one degree of freedom, by bisection.
  let [low, high] = [0, 20];
  while (high - low > 1e-6) {
    const middle = (low + high) / 2;
    if (chiSquaredProbability(middle, 1) > 0.05) low = middle;
    else high = middle;
  }
  set('triangle.limit', low, 1);
}

// A truck near Bramble's size: the height's worth in degrees, and all of chapter 5.
const HALF_TRACK = 93;
const HEIGHT = 92;
const sideTip = (distance: number, height: number): number =>
  deg(edgeLimit(millimeters(distance), millimeters(height), degrees(0)));
set('tip.perMillimeter', sideTip(HALF_TRACK, HEIGHT - 0.5) - sideTip(HALF_TRACK, HEIGHT + 0.5), 1);

// Chapter 3, D3.3: 14 mm of droop in front, 17 behind.
{
  const droop = (massFactor: number): Droop => ({
    mass: bramble.mass.value,
    front: {
      mass: kilograms(massFactor * frontMass),
      shift: { x: meters(0), z: millimeters(-14) },
    },
    rear: { mass: kilograms(massFactor * rearMass), shift: { x: meters(0), z: millimeters(-17) } },
  });
  const sag = -mm(droopOfCg(droop(1)).z);
  set('droop.shift', sag, 1);
  set('droop.massError', -mm(droopOfCg(droop(1.1)).z) - sag, 1);
  set('droop.tipGain', sideTip(HALF_TRACK, HEIGHT - sag) - sideTip(HALF_TRACK, HEIGHT), 1);
  for (const [id, name] of [
    ['hood', 'Hood'],
    ['hoop', 'Hoop'],
    ['bed', 'Bed'],
  ] as const) {
    const sagged = { x: cg.x, z: meters(cg.z + droopOfCg(droop(1)).z) };
    const direction = must(hangDirection(hookAt(id), sagged));
    const { line, acrossLine } = must(hangLine(hookAt(id), 'body', direction, droop(1)));
    set(`droop.angle${name}`, Math.abs(slopeOf(line.angle)), 0);
    set(`droop.across${name}`, Math.abs(mm(acrossLine)), 1);
  }
}

// Chapter 3, part E: what depth and a slanting view do to a mark, by the camera of the pictures themselves.
{
  const camera = {
    roll: 0,
    yaw: 0,
    pitch: 0,
    a: 0,
    b: 0,
    scale: 1000,
    centerX: 0,
    centerY: 0,
  };
  // One pixel a millimeter in the center plane.
  const tooFar = (distance: number): number =>
    project({ ...camera, nearness: 1 / distance }, { a: 0.15, b: 0, c: 0.088 }).x - 150;
  set('depth.at1500', tooFar(1.5), 1);
  set('depth.at3000', tooFar(3), 1);
  set(
    'depth.oblique3',
    Math.abs(project({ ...camera, nearness: 0, yaw: degrees(3) }, { a: 0, b: 0, c: 0.09 }).x),
    1,
  );
}

// Chapter 3: what spoils a picture, how one is read, and a hammer hung twice.
for (const [name, value, decimals] of [...PHOTOGRAPH_NUMBERS, ...HAMMER_NUMBERS]) set(name, value, decimals);

/** An estimate of a length under its name, and its ± as `namePlusMinus`. */
const setLength = (name: string, estimate: { value: number; u: number }): void => {
  set(name, mm(estimate.value), 1);
  set(`${name}PlusMinus`, COVERAGE * mm(estimate.u), 1);
};
const demo = must(
  sheetFromText(readFileSync(new URL('../../assets/demo/bramble.json', import.meta.url), 'utf8')),
).sheet;
const buildCalled = (id: string): BuildState => {
  const build = demo.states.find((state) => state.id === id);
  if (!build) throw new Error(`the demo sheet has no state ${id}`);
  return build;
};

// The cover and chapter 3, E: the demo sheet's answer, what is behind it, and two of its lines crossed by hand.
{
  const build = buildCalled(demo.openState);
  const answer = benchAnswer(build);
  const place = must(answer.cg);
  setLength('demo.ahead', place.ahead);
  setLength('demo.left', place.left);
  setLength('demo.height', place.height);
  const tips = must(answer.tips);
  for (const [name, { angle }] of [
    ['Left', tips.left],
    ['Right', tips.right],
    ['Climb', tips.climb],
    ['Descent', tips.descent],
  ] as const) {
    set(`demo.tip${name}`, deg(angle.value), 1);
    set(`demo.tip${name}PlusMinus`, COVERAGE * deg(angle.u), 1);
  }
  const widest = Math.max(...[tips.left, tips.right, tips.climb, tips.descent].map(({ angle }) => angle.u));
  set('demo.tipPlusMinus', COVERAGE * deg(widest), 1);
  set('demo.hangs', answer.lines.length, 0);
  const others = ['axle lift', 'hang line', 'tilt board', 'balance on an edge'];
  const counts = ({ kind, notCounted }: ReadingEntry): boolean => others.includes(kind) && !notCounted;
  set('demo.otherReadings', answer.entries.filter(counts).length, 0);
  set('demo.parts', build.parts.length, 0);
  set('demo.side', mm(answer.triangle?.longestSide ?? NaN), 1);

  const photographsAlone = build.readings
    .filter(({ kind }) => kind !== 'total mass')
    .reduce((state, { id }) => withCounted(state, id, false), build);
  const photographed = must(benchAnswer(photographsAlone).cg);
  setLength('photo.ahead', photographed.ahead);
  setLength('photo.height', photographed.height);

  for (const [name, value, decimals] of [
    ...smallestPath(build, cg),
    ...waysToRead('locked', build, 'anchored direction'),
    ...waysToRead('free', buildCalled('free'), 'pose'),
  ])
    set(name, value, decimals);

  const methods = agreementOf(build, answer, 'height');
  const alone = (id: string): { value: number; u: number } => {
    const found = methods.find(({ readings }) => readings.includes(id))?.alone;
    if (!found) throw new Error(`${id} does not tell the height`);
    return found;
  };
  for (const [name, id] of [
    ['photographs', answer.lines[0]?.pictureId ?? ''],
    ['liftFront', 'lift-front'],
    ['liftRear', 'lift-rear'],
    ['hang', 'hang-slider'],
    ['noseUp', 'board-nose-up'],
    ['sides', 'board-left'],
  ] as const) {
    setLength(`check.${name}`, alone(id));
  }
  if (!answer.consistency) throw new Error('nothing checks the demo truck');
  set('check.chi', answer.consistency.chiSquared, 1);
  set('check.freedom', answer.consistency.degreesOfFreedom, 0);
  set('check.chance', 100 * answer.consistency.probability, 0);

  // Chapter 5, E: what the bench can see of a change, and of those on the sheet.
  const seen = canSee(answer, 'side tip');
  if (!seen) throw new Error('the demo truck has no side tip');
  set('see.threshold', deg(seen.independent.threshold), 1);
  set('see.limit', deg(seen.independent.limit), 1);
  set('see.thresholdReused', deg(seen.reused.threshold), 1);
  set('see.limitReused', deg(seen.reused.limit), 1);
  const changes = changesSeen(build, answer, 'side tip');
  for (const [name, id, anew, reused] of [
    ['pack', 'pack-lower', true, true],
    ['spare', 'spare-off', false, true],
    ['ballast', 'wheel-ballast', false, false],
    ['plate', 'skid-plate', false, false],
  ] as const) {
    const change = changes.find((each) => each.id === id);
    if (!change?.effect) throw new Error(`the demo sheet has no change ${id}`);
    setSigned(`see.${name}`, deg(change.effect.difference.value), 1);
    // The chapter says so in words.
    if ((change.independent === 'seen') !== anew || (change.reused === 'seen') !== reused)
      throw new Error(`chapter 5 misstates whether ${id} is seen`);
  }

  // Hooks as ruled and directions as read, each as printed.
  const hang = (id: string) => {
    const hook = build.hooks.find((candidate) => candidate.id === id);
    const line = answer.lines.find(({ hookId }) => hookId === id);
    if (!hook || !line) throw new Error(`the demo sheet has no hang from ${id}`);
    const slope = Math.round(10 * slopeOf(line.line.angle)) / 10;
    const [x, z] = [Number(hook.ahead.text), Number(hook.height.text)];
    set(`demo.${id}X`, x, 1);
    set(`demo.${id}Z`, z, 1);
    set(`demo.${id}Angle`, slope, 1);
    return { slope, line: lineAt(at(x, z), degrees(slope)) };
  };
  const first = hang('hood');
  const second = hang('hoop');
  hang('bed');
  [first, second].forEach(({ slope }, i) => set(`hang.tan${i + 1}`, Math.tan(degrees(slope)), 4));
  set('hang.tan2Size', Math.abs(Math.tan(degrees(second.slope))), 4);
  const point = must(crossingPoint(first.line, second.line));
  set('hang.x', mm(point.x), 1);
  set('hang.h', mm(point.z), 1);
  set('hang.crossing', deg(crossingAngle(first.line, second.line)), 1);
}

// Chapter 3, part F: a lift that contradicts the rest, counted and left out.
{
  const build = buildCalled('straps');
  const all = benchAnswer(build);
  const without = answerWithout(build, 'lift');
  const lift = agreementOf(build, all, 'height').find(({ readings }) => readings.includes('lift'))?.alone;
  const named = all.blunder?.named?.first;
  if (!lift || !named || !all.consistency || !without.consistency)
    throw new Error('the lift tells no height');
  setLength('straps.lift', lift);
  const [averaged, rest] = [must(all.cg).height, must(without.cg).height];
  setLength('straps.all', averaged);
  setLength('straps.without', rest);
  set('straps.allFine', mm(averaged.value), 2);
  set('bramble.height', mm(cg.z), 1);
  // From the heights as printed, so that the text agrees with itself.
  set('straps.miss', Number(mm(averaged.value).toFixed(1)) - Number(mm(cg.z).toFixed(1)), 1);
  set('straps.chi', all.consistency.chiSquared, 1);
  set('straps.freedom', all.consistency.degreesOfFreedom, 0);
  set('straps.chance', 100 * all.consistency.probability, 1);
  set('straps.chiWithout', without.consistency.chiSquared, 1);
  set('straps.freedomWithout', without.consistency.degreesOfFreedom, 0);
  set('straps.normalized', named.normalized, 1);
  set('straps.off', massIn(kilograms(named.off), 'g'), 0);
  set('straps.offPlusMinus', COVERAGE * massIn(kilograms(named.offU), 'g'), 0);
  // What the chapter says in words: which number is named, what it cannot be told from, and the slip that fits.
  const rivals = all.blunder?.named?.group.map(({ id }) => id) ?? [];
  const slips = likelySlips(all.bench, 'lift.load').map(({ code }) => code);
  if (
    named.id !== 'lift.load' ||
    !['frontTireRadius', 'rearTireRadius'].every((id) => rivals.includes(id)) ||
    !rivals.some((id) => id.startsWith('hang-')) ||
    !slips.includes('suspension not locked in the lift') ||
    Math.abs(rest.value - cg.z) > COVERAGE * rest.u ||
    Math.abs(averaged.value - cg.z) < COVERAGE * averaged.u
  )
    throw new Error('chapter 3 misstates what the lift without straps shows');
}

// Chapter 5, part C.
set('block.upright', sideTip(30, 60), 1);
set('block.lying', sideTip(60, 30), 1);
set('truck.tangent', HALF_TRACK / HEIGHT, 3);
set('truck.side', sideTip(HALF_TRACK, HEIGHT), 1);

// Chapter 5, part D: one change at a time.
{
  const as = sideTip(HALF_TRACK, HEIGHT);
  for (const [name, change, distance, height] of [
    ['lower10', 'Gain', HALF_TRACK, HEIGHT - 10],
    ['higher10', 'Gain', HALF_TRACK, HEIGHT + 10],
    ['half', 'Gain', HALF_TRACK, HEIGHT / 2],
    ['wider5', 'Gain', HALF_TRACK + 5, HEIGHT],
    ['left3', 'Loss', HALF_TRACK - 3, HEIGHT],
    ['right3', 'Gain', HALF_TRACK + 3, HEIGHT],
  ] as const) {
    const angle = sideTip(distance, height);
    set(`vary.${name}`, angle, 1);
    // From the angles as printed, so that the table agrees with itself.
    setSigned(`vary.${name}${change}`, Number(angle.toFixed(1)) - Number(as.toFixed(1)), 1);
  }
  set('vary.first10', sideTip(HALF_TRACK, HEIGHT - 10) - as, 1);
  set('vary.next10', sideTip(HALF_TRACK, HEIGHT - 20) - sideTip(HALF_TRACK, HEIGHT - 10), 1);
  set('vary.halfTangent', HALF_TRACK / (HEIGHT / 2), 3);
  set('width.outer', sideTip(HALF_TRACK + 20, HEIGHT), 1);
}

// Chapter 5, E5: the dial.
{
  const [wheelbase, track]: [Length, Length] = [millimeters(313), millimeters(2 * HALF_TRACK)];
  const place = { x: millimeters(171), y: millimeters(0), z: millimeters(HEIGHT) };
  const polygon = must(supportPolygon(truckContacts(wheelbase, track, track)));
  const limit = (heading: number): number => deg(must(limitSlope(polygon, place, degrees(heading))).slope);
  const grade = (slope: number): number => angleIn(degrees(slope), '%');
  for (const [name, heading] of [
    ['descent', 0],
    ['at30', 30],
    ['at45', 45],
    ['at60', 60],
    ['left', 90],
    ['at118', 118],
    ['climb', 180],
    ['right', 270],
  ] as const) {
    set(`dial.${name}`, limit(heading), 1);
    set(`dial.${name}Grade`, grade(limit(heading)), 0);
  }
  // The steepest heading between nose down and left side down: where the limits over both lines are equal.
  let [low, high] = [0, 90];
  const leftFirst = (heading: number): boolean => {
    const { perEdge, governing } = must(limitSlope(polygon, place, degrees(heading)));
    return perEdge.length === 4 && polygon.edges[governing]?.from.name === 'front left';
  };
  while (high - low > 1e-6) {
    const middle = (low + high) / 2;
    if (leftFirst(middle)) high = middle;
    else low = middle;
  }
  const ruler = (heading: number): number => limit(0) + (heading / 90) * (limit(90) - limit(0));
  set('dial.cornerHeading', low, 0);
  set('dial.corner', limit(low), 1);
  set('dial.halfway', ruler(45), 1);
  set('dial.cornerError', limit(low) - ruler(low), 1);

  // One slope, three ways.
  for (const slope of [20, 30, 45, 60]) {
    set(`grade.at${slope}`, grade(slope), 0);
    set(`tangent.at${slope}`, grade(slope) / 100, 2);
  }
  set('grade.of45', deg(Math.atan(0.45)), 1);
  set('truck.ssf', must(staticStabilityFactor(track, place.z)), 2);

  // Class means of measured cars, SAE 1999-01-1336: track and CG height, m.
  for (const [name, carTrack, height] of [
    ['small', 1.446, 0.519],
    ['large', 1.468, 0.585],
  ] as const) {
    set(`cars.${name}Ssf`, must(staticStabilityFactor(meters(carTrack), meters(height))), 2);
    set(`cars.${name}Angle`, deg(edgeLimit(meters(carTrack / 2), meters(height), degrees(0))), 1);
  }

  // What makes the ± of a side limit.
  const plusMinus = (height: number, lateral: number, tracks: number): number => {
    const u = [0, lateral, height, 0, tracks, tracks].map((limitMm) => millimeters(limitMm) / COVERAGE);
    const covariance = independent(u);
    // Both tracks are one reading.
    const shared = (u[4] ?? NaN) * (u[5] ?? NaN);
    const joint = covariance.map((row, i) =>
      row.map((value, j) => ((i === 4 && j === 5) || (i === 5 && j === 4) ? shared : value)),
    );
    const tips = must(
      truckTipAngles({ cg: place, wheelbase, frontTrack: track, rearTrack: track, covariance: joint }, null),
    );
    return COVERAGE * deg(tips.left.angle.u);
  };
  set('sure.height', plusMinus(1.8, 0, 0), 1);
  set('sure.lateral', plusMinus(0, 3, 0), 1);
  set('sure.track', plusMinus(0, 0, 1.5), 1);
  set('sure.together', plusMinus(1.8, 3, 1.5), 1);
  set('sure.weighed', plusMinus(1.8, 1, 1.5), 1);
}

export const CHAPTER_NUMBERS: ReadonlyMap<string, string> = numbers;
