/** Every tolerance of a test, with its reason. `value` is in `unit`. */
export interface Tolerance {
  readonly value: number;
  readonly unit: string;
  readonly reason: string;
}

const table = {
  'householder: products': {
    value: 1e-10,
    unit: '1',
    reason: 'Sums of a dozen products up to 100 in double precision, after up to six reflections.',
  },
  'householder: factor': {
    value: 1e-8,
    unit: '1',
    reason: 'Entries up to 35, made worse by a pivot of 0.1 a hundredfold and by others in turn.',
  },
  'own axes: plate': {
    value: 0.1,
    unit: 'mm',
    reason:
      'Marks are kept to a hundredth of a pixel, 2 px to a millimeter; from 40 m depths leave hundredths.',
  },
  'own axes: tip angle': {
    value: 0.1,
    unit: '°',
    reason: 'A tenth of a millimeter over the 70 mm from base to center of gravity.',
  },
  'smallest path: in u': {
    value: 2.5,
    unit: 'u',
    reason: 'One truck marked once: farther off than 2.5 u only once in eighty.',
  },
  'smallest path: drawn point': {
    value: 2,
    unit: 'px',
    reason:
      'What is asked of the drawing; the screen shows one pixel for two of the picture and rounds to a tenth.',
  },
  'smallest path: object': {
    value: 0.5,
    unit: 'mm',
    reason:
      'Marks are exact; the usual depths and distances, which the plate does not have, shift it by tenths.',
  },
  'on pictures: exact scale': {
    value: 1e-12,
    unit: 'mm/px',
    reason: 'One quotient in double precision.',
  },
  'on pictures: rounded marks': {
    value: 0.05,
    unit: 'px',
    reason:
      'Marks are kept to a hundredth of a pixel; carried over and extended they add up to a few of them.',
  },
  'on pictures: scale': {
    value: 2e-4,
    unit: 'px/mm',
    reason: 'Two marks rounded to a hundredth of a pixel, 430 px apart.',
  },
  'cross on pictures: exact marks': {
    value: 1e-8,
    unit: 'px',
    reason: 'Closed forms of places up to 2,000 px in double precision.',
  },
  'cross on pictures: parts of a spacing': {
    value: 1e-10,
    unit: '1',
    reason: 'The same over a spacing of hundreds of pixels.',
  },
  'cross on pictures: moved pictures': {
    value: 1e-6,
    unit: 'px, or of u where that is larger',
    reason:
      'Closed forms of random plates, some seen at 0.3 px/mm beside others at 8, whose strings cross at 17° at least. As a part of the marks’ spacing, which may be 20 px: a fifteenth of it.',
  },
  'cross on pictures: moved u': {
    value: 1e-5,
    unit: '1',
    reason: 'Central differences with steps of a part of u.',
  },
  'cross on pictures: simulated variance': {
    value: 0.15,
    unit: '1',
    reason: '1,500 draws tell a variance to 3.7 %; four times that.',
  },
  'cross on pictures: coverage of trucks': {
    value: 0.04,
    unit: '1',
    reason:
      '300 pictures in pairs of one bench tell a coverage of 95 % to about 1.6 %; the allowance is rounded.',
  },
  'read bench: covariance': {
    value: 1e-9,
    unit: '1',
    reason: 'Closed forms of two parts in double precision.',
  },
  'seen: factor': {
    value: 1e-6,
    unit: '1',
    reason: 'The quantiles 1.959964 and 1.644854 are given to seven digits.',
  },
  'changes: first moments': {
    value: 1e-12,
    unit: 'm',
    reason: 'One product and one quotient in double precision.',
  },
  'draws: mean': {
    value: 0.08,
    unit: 'u',
    reason: '4,000 draws scatter by 0.016 u about their mean; five times that.',
  },
  'draws: u': {
    value: 0.06,
    unit: '1',
    reason: 'u of 4,000 normal draws scatters by 0.011; five times that.',
  },
  'change effect: u': {
    value: 1e-5,
    unit: '1',
    reason:
      'Closed forms of one law; the truck’s own u differs along its axes by what a prior of 1 m adds, 2e-6.',
  },
  'change effect: simulated': {
    value: 0.02,
    unit: '1',
    reason:
      '20,000 draws tell a standard deviation to 0.5 %; as much again is left out by first order at u of 4 %.',
  },
  'change effect: followed': {
    value: 0.15,
    unit: '1, of the difference',
    reason:
      'First order at a move of 8 mm beside a CG 95 mm from the tires: their ratio is what it leaves out.',
  },
  'further reading: u of an open quantity': {
    value: 1e-3,
    unit: '1',
    reason:
      'An open coordinate is held to 10 m and found to a thousandth of that along its line, which bends the slopes a little.',
  },
  'further reading: u': {
    value: 1e-4,
    unit: '1',
    reason: 'Two searches that stop at 1e-8 m near one estimate; a ± is told to two digits.',
  },
  'seen or not: sum of parts': {
    value: 1e-7,
    unit: '1',
    reason: 'Variances added reading by reading against the covariance, which keeps ten good digits.',
  },
  'seen or not: sensitivity': {
    value: 1e-4,
    unit: '1',
    reason: 'The search stops at 1e-8 m over a lever of 0.1 m: 1e-7 rad, over a difference of 3.5e-4 rad.',
  },
  'seen or not: simulated': {
    value: 0.055,
    unit: '1',
    reason:
      '2,000 draws tell a standard deviation to 1.6 %; 3.4 of those are passed by chance once in 1,500 seeds.',
  },
  'simulated bench: rounding': {
    value: 1e-12,
    unit: 'kg m, kg, m, rad or 1',
    reason: 'Statics of a few numbers near one in double precision; slopes are halved down to 2e-14 rad.',
  },
  'simulated bench: chance': {
    value: 3.3,
    unit: 'standard deviations of what is counted',
    reason:
      'One check in a thousand would be farther off by chance; some twenty are made, on draws that do not change.',
  },
  'simulated bench: exact readings': {
    value: 1e-8,
    unit: 'm',
    reason: 'The search stops at steps below 1e-8 m, each closer to the answer than the last.',
  },
  'simulated bench: sharpness': {
    value: 1.05,
    unit: '1, RMS of error over bound',
    reason: 'Asked. 2,000 errors at a true 1 vary by 0.016.',
  },
  'simulated bench: told uncertainty': {
    value: 0.01,
    unit: '1, of the bound',
    reason:
      'Slopes at the answer instead of at the truth: second order of errors of some hundredths, a few in ten thousand.',
  },
  'simulated bench: coverage': {
    value: 0.01,
    unit: '1, around 0.95',
    reason:
      'Asked: 94-96 %. 20,000 draws vary by 0.0015; where fewer leave more, chance is allowed for instead.',
  },
  'simulated bench: right one named': {
    value: 0.9,
    unit: '1, of sets in which the blunder is identifiable',
    reason: 'Asked. Long runs give 0.98 and more; of 40 at that, one in 600 would fall below by chance.',
  },
  'simulated bench: group holds the wrong one': {
    value: 0.95,
    unit: '1, of other sets in which something is named',
    reason:
      'Asked. The group is drawn for 99 %; of 60 at that, one in 300 would fall below by chance, on draws that do not change.',
  },
  'simulated bench: false alarms': {
    value: 0.05,
    unit: '1, of clean sets',
    reason:
      'Asked. The limit is on the safe side where numbers check each other; 2,000 at 0.05 vary by 0.005.',
  },
  'simulated bench: hard limits': {
    value: 0.025,
    unit: '1, around 0.95',
    reason:
      'Nothing asked. Of a single number between hard limits 1.96 u holds all, of many summed 95 %; chance among 1,000 is 0.007.',
  },
  'cared quantity: angle': {
    value: 1e-12,
    unit: 'rad',
    reason: 'Two closed forms of one angle in double precision.',
  },
  'cared quantity: relative u': {
    value: 1e-6,
    unit: '1',
    reason:
      'Exact slopes against central differences of 0.01 u, which leave (0.01 u)² of curvature over levers of 0.1 m.',
  },
  'truck model: slope': {
    value: 2e-8,
    unit: '1, relative above 1',
    reason:
      'Central differences of a step of 1e-6 leave 1e-12 of curvature and 1e-10 of rounding, times the levers.',
  },
  'truck adjustment: redundancy sum': {
    value: 1e-6,
    unit: '1',
    reason: 'A trace identity; some thirty numbers, each by a matrix inverse of ten good digits.',
  },
  'truck adjustment: order': {
    value: 1e-7,
    unit: 'm',
    reason:
      'The search stops when steps are below 1e-8 m; from either order the last step may be half of that.',
  },
  'calculators: rounding': {
    value: 1e-7,
    unit: '1, mm or °',
    reason: 'Closed forms against closed forms in double precision; the meeting point settles to 1e-9 m.',
  },
  'example truck: place': {
    value: 1e-5,
    unit: 'm',
    reason: 'The example truck is written down to a hundredth of a millimeter.',
  },
  'honest ellipse: each kind': {
    value: 0.9,
    unit: '1',
    reason:
      'Asked of every kind. 250 draws at a true 0.95 vary by 0.014, so a kind below 0.90 is 3.6 of those off.',
  },
  'honest ellipse: pooled': {
    value: 0.02,
    unit: '1',
    reason: 'Asked: 93-97 %. 1,000 draws at a true 0.95 vary by 0.007.',
  },
  'median error: locked': {
    value: 2,
    unit: 'mm',
    reason: 'Asked: half of what most changes to a truck are worth (3-6 mm of height).',
  },
  'median error: free': {
    value: 2.2,
    unit: 'mm',
    reason: 'Asked: as locked, with the droop of both axles measured as well.',
  },
  'hang: CG under the hook': {
    value: 1e-8,
    unit: 'm',
    reason: 'Finite differences of an energy with 16 digits settle the pose to some 1e-9 rad at 0.3 m.',
  },
  'hang: least energy': {
    value: 1e-12,
    unit: 'J',
    reason: 'Rounding of sums of a few joules in double precision, times some hundred operations.',
  },
  'demo: three.js projection': {
    value: 1e-6,
    unit: 'px',
    reason:
      'Two ways to the same double-precision number; a fiftieth of a pixel would already do for marking.',
  },
  'demo: scale reading': {
    value: 2.5,
    unit: 'g',
    reason: 'Demo scales are up to 2 g wrong by construction, then rounded to the gram.',
  },
  'bench: same answer': {
    value: 0.002,
    unit: 'u',
    reason: 'Two searches for one place, each ended by a step below a thousandth of the fit’s uncertainty.',
  },
  'bench: from an earlier answer': {
    value: 0.002,
    unit: 'u',
    reason: 'Two searches for one place, each ended by a step below a thousandth of the fit’s uncertainty.',
  },
  'bench: budget': {
    value: 0.1,
    unit: '1',
    reason:
      'Shares are those of the fit’s slopes; the ± itself takes its curvature in, some percent where readings multiply unknowns.',
  },
  'next reading: promise kept': {
    value: 0.3,
    unit: '1',
    reason:
      'Asked. The promise takes the new line as sure as the mean of the others and as sharing nothing with them.',
  },
  'wrong mark: distance': {
    value: 0.05,
    unit: '1',
    reason:
      'Of the distance: the other marks, seen a few degrees oblique, put the mark that near to its place.',
  },
  'warnings: size': {
    value: 0.05,
    unit: 'mm',
    reason:
      'The fit moves the shares of the axles’ masses within their ±, by far less than a tenth of 25 mm.',
  },
  'camera: pixel': {
    value: 1e-8,
    unit: 'px',
    reason: 'Two ways to one double-precision number of some 1e3 pixels, through a few dozen operations.',
  },
  'camera: back at its depth': {
    value: 1e-10,
    unit: 'm',
    reason: 'A pixel good to 1e-9 of some 1e3, at 800 pixels a meter and more.',
  },
  'camera: slope': {
    value: 1e-6,
    unit: '1',
    reason:
      'Third-derivative term of a difference over 1e-4, at most a few times 1e-8 of the slope, and rounding of 1e3 pixels over 2e-4.',
  },
  'sightings: slope': {
    value: 1e-5,
    unit: 'of the largest slope',
    reason:
      'Third-derivative term of a difference over 1e-4: near a line through two points 30 pixels apart, 1e-4 turns the line by up to 0.01.',
  },
  'sightings: distance by area': {
    value: 1e-3,
    unit: 'px',
    reason:
      'The root of an area that cancels where the mark lies near the line: 1e-16 of sides to the fourth, over a side.',
  },
  'pictures: exact, level': {
    value: 0.01,
    unit: 'mm',
    reason: 'Asked. The stop rule alone leaves a thousandth of a u of 2 mm.',
  },
  'pictures: exact, leaning': {
    value: 0.15,
    unit: 'mm',
    reason:
      'The lean is taken over a lever estimated before the fit, 10 to 20 % off: 0.2° of 1.5° at most, which marks 90 mm out see as 0.3 mm and share with the view.',
  },
  'plumb lines: settled': {
    value: 1e-5,
    unit: 'm, rad or 1',
    reason: 'The fit stops when its next step is below 5 µm or 20 µrad, from starts up to 4 mm apart.',
  },
  'plumb lines: slope': {
    value: 1e-7,
    unit: '1, m or 1/m',
    reason: 'Central differences of a step of 1e-6: rounding of 1e-16 over it, and its square of curvature.',
  },
  'plumb lines: covariance': {
    value: 5e-4,
    unit: '1, of a correlation',
    reason:
      'The same sums in another order, but for 10 µm of the string’s own, squared over a line’s 0.5 mm.',
  },
  'pictures: misfit as expected': {
    value: 0.4,
    unit: '1',
    reason:
      'The fit turns each camera to suit the marks, which takes up one or two of the 2n − 4 freedoms: a mean square of 0.6 to 1. 60 pictures vary by 0.07.',
  },
  'pictures: how far misplaced': {
    value: 0.5,
    unit: '1',
    reason:
      'Told to first order from a fit that the misplaced mark has turned by several degrees: a third too much in the middle.',
  },
  'pictures: misplaced mark named': {
    value: 0.9,
    unit: '1',
    reason:
      'Of five marks and more, 15 mm off: leaving the right one out fits best; one in 10 is left for a neighbor that fits nearly as well.',
  },
  'physics: rounding': {
    value: 1e-9,
    unit: '1',
    reason: 'Double precision, a few hundred operations: relative to the larger of 1 and the value.',
  },
  'physics: rounding in a length': {
    value: 1e-12,
    unit: 'm',
    reason: 'Sixteen digits of lengths below 1 m, through some ten operations.',
  },
  'physics: rounding in an angle': {
    value: 1e-11,
    unit: 'rad',
    reason: 'Sixteen digits through a few sines and a division by lengths of 0.02 m and more.',
  },
  'physics: settled point': {
    value: 3e-9,
    unit: 'm',
    reason:
      'Lines that are uncertain in place alone: a linear fit, whose angles are exact to 1e-9 rad at 1 m and less.',
  },
  'physics: settled lines': {
    value: 3e-7,
    unit: 'm',
    reason:
      'Lines that turn: the fit stops at a step of a thousandth of its u, 10 mm at most here, and that step leaves 1 % of itself.',
  },
  'physics: covariance of settled lines': {
    value: 1e-4,
    unit: 'correlation',
    reason:
      'Taken one step of a thousandth of u before the end: 10 µm of the 0.1 m along a line that its angle is weighed by.',
  },
  'physics: small angle of a line': {
    value: 3e-4,
    unit: '1',
    reason:
      'The estimate turns lines truly, the independent sum lets them pass by lever times angle: at 0.03 rad they part by a third of its square.',
  },
  'physics: exact lines': {
    value: 1e-8,
    unit: 'm',
    reason:
      'Exact lines are taken to be good to 1e-9 m and 1e-9 rad; their region is 2.45 u over the sine of the crossing.',
  },
  'shared hook: covariance': {
    value: 1e-3,
    unit: 'correlation',
    reason:
      'The seat of the string, 0.01 mm beside 1.2 mm of the hook: its square is 7e-5, with room for rounding.',
  },
  'hook in both: not averaged': {
    value: 0.06,
    unit: '1',
    reason:
      'The level adds to the string’s direction, some 0.6 mm of 2.2 mm in the picture, and nothing to its place: 4 %. A ruler’s reading counted twice takes a quarter off.',
  },
  'hook in both: same place': {
    value: 0.2,
    unit: 'u',
    reason: 'Both angles are true to 0.1°, 0.2 mm at the CG, beside a hook of 5 mm.',
  },
  'physics: normal law': {
    value: 1e-12,
    unit: '1',
    reason: 'Two independent series for the error function, each good to some 1e-15.',
  },
  'physics: central difference': {
    value: 1e-6,
    unit: '1',
    reason:
      'Third-derivative term of a difference over 0.01 u, u at most 2 % of the value: 2e-4 squared over 6, with room.',
  },
  'physics: Monte Carlo covariance': {
    value: 0.04,
    unit: 'correlation',
    reason:
      'Four standard errors of a correlation or relative variance over 20,000 draws: 4 sqrt(2/20,000) = 0.040.',
  },
  'physics: Monte Carlo mean': {
    value: 0.03,
    unit: 'u',
    reason: 'Four standard errors of a mean over 20,000 draws: 4/sqrt(20,000) = 0.028.',
  },
  'physics: first order against Monte Carlo': {
    value: 0.06,
    unit: 'correlation',
    reason:
      'Four standard errors over 20,000 draws, 0.040, and 0.02 for the second-order part at the relative u drawn here.',
  },
  'physics: Clark minimum': {
    value: 0.03,
    unit: 'u',
    reason:
      'Clark’s moments are exact for normal limits; four standard errors of the mean over 20,000 draws are 0.028 u.',
  },
  'physics: switch at a tie': {
    value: 0.02,
    unit: 'u',
    reason:
      'At 2 u apart Clark’s mean differs from the smaller limit by 0.0085 u of the difference, which is at most 2 u of one limit; its u by at most twice that.',
  },
  'least squares: two solvers': {
    value: 1e-7,
    unit: 'u and correlation',
    reason:
      'Normal equations, against which it is checked, square the condition number: 1e4 of a random problem leaves eight digits.',
  },
  'least squares: curvature': {
    value: 1e-6,
    unit: 'correlation',
    reason:
      'Second differences over a tenth of the scale: rounding 1e-16 of values some 100 u long, over 0.01, times residuals of tens of u.',
  },
  'least squares: second difference': {
    value: 0.002,
    unit: 'correlation',
    reason: 'Fourth-derivative term of a second difference over a tenth of the scale: 0.01/12, with room.',
  },
  'least squares: left out': {
    value: 1e-3,
    unit: '1',
    reason:
      'A reading counts as checked with 1e-4 of its variance left to others: differences of numbers good to 1e-7 are divided by that.',
  },
  'least squares: zero slope': {
    value: 1e-6,
    unit: '1/m',
    reason: 'Settled to 1e-3 of a u shrunk by 1e-6, times second derivatives of some 20.',
  },
  'least squares: settled': {
    value: 1e-3,
    unit: 'u',
    reason: 'The stop rule: a last step below a thousandth of the fit’s own uncertainty.',
  },
  'least squares: mean chi-squared': {
    value: 0.03,
    unit: 'standard deviation of chi-squared',
    reason: 'Four standard errors of a mean over 20,000 draws: 4/sqrt(20,000) = 0.028.',
  },
  'published: last digit': {
    value: 0.5,
    unit: 'units of the last printed digit',
    reason: 'A printed number is rounded to its nearest last digit.',
  },
  'monte carlo: same place': {
    value: 0.002,
    unit: 'u',
    reason:
      'Two searches for one place, each ended when what is left is below a thousandth of the fit’s uncertainty.',
  },
  'monte carlo: standard error': {
    value: 0.9,
    unit: 'logarithm',
    reason:
      'A spread of ten batches varies by a quarter of itself: three and a half of those, on a logarithmic scale.',
  },
  'monte carlo: chance': {
    value: 1e-4,
    unit: '1',
    reason:
      'Eight sums with fixed starts: a true generator would miss in one of a thousand choices of starts.',
  },
  'published: standard errors': {
    value: 4,
    unit: 'standard errors',
    reason: 'Drawn numbers with a fixed start: one in 16,000 would be off by more with another start.',
  },
  'published: other solver': {
    value: 1e-7,
    unit: '1, relative',
    reason:
      'Slopes by central differences over 1e-4 of the scale leave some 1e-8 of curvature in the covariance.',
  },
  'published: other solver, slopes given': {
    value: 1e-10,
    unit: '1, relative',
    reason:
      'Fifty digits against sixteen, the last step below a thousandth of a u that is 1e-6 of the real one.',
  },
  'published: digits of straight lines and parabolas': {
    value: 12,
    unit: 'digits',
    reason:
      'Asked: 9. Of nearly sixteen, orthogonal columns cost one or two and a far-off parabola three, when columns are scaled.',
  },
  'published: digits of nearly dependent columns': {
    value: 9,
    unit: 'digits',
    reason:
      'Asked: 7. Columns scaled to a like size still have a condition number of some 1e4 to 1e6; powers up to 3e6 round at 1e-10.',
  },
  'published: digits of an exponential': {
    value: 9,
    unit: 'digits',
    reason:
      'Certified to eleven; the slopes are central differences good to some 1e-10, which the deviations take over.',
  },
  'rigid body: CG under the hook': {
    value: 0.05,
    unit: 'deg',
    reason:
      'A damped swing is stopped at 1e-4 rad/s in an engine with single-precision numbers and a soft joint.',
  },
  'rigid body: one truck': {
    value: 0.3,
    unit: 'deg',
    reason:
      'A truck leans on the engine’s soft contacts before it tips: up to 0.12° at the gravity used, more where two corners carry all.',
  },
  'rigid body: mean of trucks': {
    value: 0.1,
    unit: 'deg',
    reason: 'The lean on soft contacts is 0.05° on average, and the slope is searched to 0.03°.',
  },
  'sheet: unit conversion': {
    value: 1e-12,
    unit: 'SI',
    reason: 'One product and one quotient of numbers below 10 in double precision.',
  },
  'sheet: slope of a grade': {
    value: 1e-8,
    unit: 'rad',
    reason:
      'Third-derivative term of a central difference over 1e-4, times a ± of 0.01: about 1e-11, with room.',
  },
  'sheet: rounded default': {
    value: 1e-4,
    unit: 'm',
    reason: 'The default ± of 0.98 m is 0.5 m times 1.96, rounded to two decimals.',
  },
  'figures: page coordinate': {
    value: 0.011,
    unit: 'px',
    reason: 'Coordinates are written with two decimals: half a step each for the two ends of a difference.',
  },
  'figures: placed drawing': {
    value: 0.01,
    unit: 'mm',
    reason: 'Transforms are written with five decimals: 0.5e-5 times drawings of some 500 mm is 0.003 mm.',
  },
  'figures: rounding': {
    value: 1e-9,
    unit: 'px',
    reason: 'A few dozen operations on numbers below 1e4 in double precision.',
  },
  'figures: hatched area': {
    value: 0.03,
    unit: 'of the area',
    reason:
      'Area by strips as wide as the line spacing, at least 15 across the figure: end strips of an ellipse err below 2 %.',
  },
  'photographs: shown answer': {
    value: 0.25,
    unit: 'mm',
    reason:
      'The page shows 0.1 mm and tells marks to 0.1 px where it computes with 0.01 px: 0.05 px is 0.03 mm a mark.',
  },
  'photographs: drawn center of gravity': {
    value: 6,
    unit: 'px',
    reason:
      'The answer’s own ± of 1.5 mm, and as much again of the picture’s registration, at 0.5 mm a pixel.',
  },
  'photographs: told crossing': {
    value: 2,
    unit: 'deg',
    reason:
      'Two string angles of ± 0.7° each make ± 1°, whole degrees another 0.5°, the lean sideways some tenths.',
  },
  'touch: mark under the finger': {
    value: 0.6,
    unit: 'px of the screen',
    reason:
      'Marks are told to 0.1 px of the picture; the surface and its border stand on whole screen pixels.',
  },
  'touch: half a thumb': {
    value: 20,
    unit: 'px of the screen',
    reason:
      'A thumb on glass covers about 9 mm, 57 px of the 160 an inch has: half of it, less the soft rim.',
  },
  'finder: rendered string': {
    value: 0.4,
    unit: 'px',
    reason: 'The goal of 0.3 px across a string, and 0.1 px of telling places in tenths.',
  },
  'finder: rendered round': {
    value: 0.4,
    unit: 'px',
    reason: 'The goal of 0.3 px for a round, and 0.1 px of telling places in tenths.',
  },
  'finder: told blur': {
    value: 2,
    unit: 'px',
    reason:
      'A smear of 10 px is told in whole pixels, from edges that a picture on a bench has; a fifth of it.',
  },
  'finder: drawn edge': {
    value: 0.3,
    unit: 'px',
    reason: 'The goal for strings and rounds, which halving the picture must not spoil.',
  },
  'finder: drawn width': {
    value: 1,
    unit: 'px',
    reason: 'A width is only told; where eight pixels became one, its edges are an eighth of a pixel each.',
  },
  'photographs: nudged mark': {
    value: 0.11,
    unit: 'px',
    reason: 'Steps of 0.1 px reach any place to 0.05 px, and the place is told in tenths, rounded twice.',
  },
  'blunder search: tabled quantile': {
    value: 5.1e-3,
    unit: '1',
    reason: 'The limits are given to two decimals: half a unit of the last.',
  },
  'blunder search: off': {
    value: 1e-6,
    unit: 'm',
    reason: 'A linear fit: only the search’s own stop at 1e-8 m is left.',
  },
  'benchwork: rigid statics': {
    value: 1e-9,
    unit: 'm, kg or 1',
    reason: 'Sums over some thirty parts and a root found by halving, both to double precision.',
  },
  'benchwork: virtual work': {
    value: 1e-5,
    unit: 'kg',
    reason:
      'Central difference over 0.1 mm: its cubic term is below 1e-6 of a press, travel is found to some nm.',
  },
  'benchwork: straps left off': {
    value: 1.5,
    unit: 'mm',
    reason: 'Scale and ruler of the demo are off by up to 2 g and 0.5 mm, worth about 1 mm at 22°.',
  },
  'blunder search: exact bench': {
    value: 0.15,
    unit: '1',
    reason:
      'Eight standard deviations bend the models a little: their second order is some hundredths of that.',
  },
  'blunder search: units': {
    value: 2e-3,
    unit: '1',
    reason: 'Either adjustment stops when a step is below a thousandth of the whole fit’s uncertainty.',
  },
  'blunder search: level': {
    value: 1e-12,
    unit: '1',
    reason: 'A quantile by bisection to the last digits and the law it inverts.',
  },
  'likely slip: corrected': {
    value: 1e-9,
    unit: 'relative',
    reason: 'The slip and its undoing are closed forms in double precision.',
  },
  'unseen blunder: slope': {
    value: 2e-3,
    unit: 'relative',
    reason:
      'A thousandth of the blunder bends the models by less; the adjustment stops within 1e-3 of its u.',
  },
  'number free: weight to nothing': {
    value: 1e-3,
    unit: 'relative',
    reason:
      'A number with a thousandfold u still weighs a millionth; both adjustments stop within 1e-3 of u.',
  },
  'sticker sheet: printed size': {
    value: 0.2,
    unit: 'mm',
    reason: 'Half of what a ruler shows; a page scaled to fit would be off by millimeters.',
  },
  'photographs: median': {
    value: 1.8,
    unit: 'mm',
    reason: 'Asked: at 1.5 pixel marks, where lines cross at more than 40°.',
  },
  'photographs: each kind, least': {
    value: 0.9,
    unit: '1',
    reason: '200 sets at a true 0.95 vary by 0.015: 0.90 is 3.2 of those off.',
  },
  'photographs: each kind, most': {
    value: 0.99,
    unit: '1',
    reason:
      'As the least; 0.99 is 2.6 of those off, where cameras keep to a part of what a sheet allows for.',
  },
  'photographs: pooled': {
    value: 0.02,
    unit: '1',
    reason: 'Asked: 93-97 %. 1,200 sets at a true 0.95 vary by 0.006.',
  },
  'photographs world: rest': {
    value: 1e-6,
    unit: '1 or m',
    reason: 'The least energy is found to some 1e-8 rad by differences; a lever of 0.2 m makes less of it.',
  },
  'hammer: by hand': {
    value: 2e-4,
    unit: 'g or mm',
    reason: 'Worked on paper to four decimals, with two decimals in the moments of 200,000 g mm.',
  },
  'hammer: ash by the cubic foot': {
    value: 8,
    unit: 'kg/m³',
    reason: 'Half a pound by the cubic foot, to which the tables round.',
  },
  'offered mark: place': {
    value: 0.011,
    unit: 'px',
    reason: 'Places are kept to a hundredth of a pixel; the turn itself is in double precision.',
  },
  'reduced mark: center': {
    value: 0.02,
    unit: 'px',
    reason: 'Marks are read to 0.1 px; levels rounded to whole numbers move the mean by less than 0.01 px.',
  },
  'focal length: pixels': {
    value: 1e-4,
    unit: '1',
    reason: 'The standard rounds the diagonal of 43.2666 mm to 43.27 mm, which is 8e-5 of it.',
  },
  'decoded mark: center': {
    value: 0.1,
    unit: 'px',
    reason: 'To what marks are read; JPEG noise moves the middle of a mark of 60 px by some 0.02 px.',
  },
  'offered mark: near its corner': {
    value: 40,
    unit: 'px',
    reason:
      'A similarity by two marks knows no perspective: a mark 100 mm nearer to a camera 1.5 m away than another is carried some 7 % of its lever off; pictures 1200 px wide.',
  },
  'sticker: found in its middle': {
    value: 0.3,
    unit: 'px',
    reason: 'What the notebook promises of a round mark.',
  },
  'pose: exact pixels': {
    value: 1e-6,
    unit: '1, m, and rad',
    reason: 'Asked. The last step is below a thousandth of a u of some 1e-3, and steps square the error.',
  },
  'pose: same valley': {
    value: 1e-5,
    unit: '1, m, and rad',
    reason: 'Two searches for one bottom, each ended when its last step is below a thousandth of some 1e-2.',
  },
  'pose: through a lens': {
    value: 1e-5,
    unit: '1, m, and rad',
    reason: 'The lens is inverted to a ten-thousandth of a pixel; a pixel turns the view by up to 0.05.',
  },
  'pose: mean normalized square': {
    value: 0.8,
    unit: '1',
    reason:
      'Four standard errors of a mean over 400 draws of seven degrees of freedom: 4·sqrt(14/400) = 0.75.',
  },
  'pose: variance of draws': {
    value: 0.3,
    unit: '1, relative',
    reason: 'Four standard errors of a variance over 400 draws: 4·sqrt(2/400) = 0.28.',
  },
  'pose: other solver': {
    value: 1e-6,
    unit: 'rad, and of the distance',
    reason:
      'The library ends its search when a step is below 1.2e-7 of its numbers, and takes at most 20: what is left is some 1e-8.',
  },
  'finders: level': {
    value: 1e-4,
    unit: 'levels',
    reason: 'Levels up to 255 in single precision, 24 bits.',
  },
  'finders: line squares': {
    value: 1e-9,
    unit: 'relative',
    reason: 'Sums of squares of twelve points in double precision, differences of which cancel.',
  },
  'finders: honest u': {
    value: 1.4,
    unit: '1',
    reason:
      'RMS of error over u in 50 crops scatters by about 8 %; noise that JPEG and texture correlate is estimated from few profiles, which leaves a fifth.',
  },
  'find string: across': {
    value: 0.3,
    unit: 'px',
    reason: 'What the finder promises; by hand a mark is good to 1.5 px.',
  },
  'find string: astray': {
    value: 1.5,
    unit: 'px',
    reason: 'Beyond half the width of a string it is another line: decoys are at least 4.5 px away.',
  },
  'find string: unsure': {
    value: 0.2,
    unit: '1',
    reason: 'A finder that refuses more often than one time in five is not worth asking.',
  },
  'find string: width': {
    value: 0.5,
    unit: 'px',
    reason:
      'Width and contrast of a thin blurred bar trade off; widths are tried a quarter of a pixel apart.',
  },
  'find string: contrast': {
    value: 6,
    unit: 'levels',
    reason: 'A quarter of a pixel of width is a tenth of the contrast of a string of 2.5 px.',
  },
  'find string: mirror': {
    value: 0.05,
    unit: 'px',
    reason:
      'Blocks and columns fall on other pixels in a mirrored picture; their noise is 0.02 px at the ends.',
  },
  'find string: bow': {
    value: 0.15,
    unit: 'px',
    reason: 'Its u is 0.02 px; the parabola is drawn over 200 px and measured between marks a little apart.',
  },
  'find round: center': {
    value: 0.3,
    unit: 'px',
    reason: 'What the finder promises; by hand a mark is good to 1.5 px.',
  },
  'find round: diameter': {
    value: 0.3,
    unit: 'px',
    reason: 'Blur over a curved border moves it inward by the blur’s variance over the diameter, 0.02 px.',
  },
  'find round: roundness': {
    value: 0.02,
    unit: '1',
    reason: 'The axes of a border of 130 pixels are known to 0.1 px of 42.',
  },
  'find round: contrast': {
    value: 8,
    unit: 'levels',
    reason:
      'Blur is tried in steps of a third; beside the border it trades off with contrast by some percent.',
  },
  'blur: length': {
    value: 0.3,
    unit: 'relative',
    reason: 'What a warning needs: whether a picture is smeared by 3 or by 6 pixels.',
  },
  'blur: direction': {
    value: 0.26,
    unit: 'rad',
    reason: 'One of twelve directions that edges are sorted into.',
  },
  'blur: none': {
    value: 1.8,
    unit: 'px',
    reason: 'Edge variances scatter by 0.1 px²; as the variance of a smear that is 1.1 px.',
  },
  'pose: other solver in single precision': {
    value: 3e-5,
    unit: 'rad, and of distance and focal length',
    reason:
      'It takes pixels to 6e-5 where they are read to 0.5, and finds the focal length to a few percent: a ten-thousandth of that, several times over.',
  },
  'pose: other solver’s u': {
    value: 1e-3,
    unit: '1, relative',
    reason: 'Its remaining misfit is that of pixels rounded to single precision; slopes differ by as much.',
  },
  'picture quality: damage': {
    value: 0.35,
    unit: '1',
    reason:
      'The rule takes the string by itself; the fit also holds what the other pictures and the view say of its direction, up to a third.',
  },
  'pictures: solved view': {
    value: 0.03,
    unit: 'rad',
    reason:
      'Marks without error; the prior of a view square to ±0.6 rad pulls angles of up to 1 rad, which five marks tell to about 0.005, back by a thousandth or two, and the string by as much.',
  },
  'reading methods: as told': {
    value: 0.3,
    unit: '1, logarithm of a ratio',
    reason:
      '120 hangs of 40 trucks, three of each sharing a standing picture: some 60 independent errors, whose root mean square strays by 9 %, and a rule to first order about a square view, off by a fifth.',
  },
} as const satisfies Record<string, Tolerance>;

export const TOLERANCES: Readonly<Record<keyof typeof table, Tolerance>> = table;

/** The tolerance of that name, in the unit its row states. */
export const tolerance = (name: keyof typeof table): number => table[name].value;
