import { describe, expect, it } from 'vitest'
import { ballKinds, ballNamed } from '../../core/planning/balls.ts'
import { sharpFromTo } from '../../core/planning/depth-of-field.ts'
import { focalOfAngle, focalOfBall, focalOfWidth } from '../../core/planning/field-of-view.ts'
import { fallen } from '../../core/planning/rate-check/fall.ts'
import { stopsBetween, stopsInWords } from '../../core/planning/stops.ts'
import { usualSetUp } from '../../core/planning/usual-set-up.ts'
import { metresOfText } from '../../core/units/length.ts'
import { metresPerSecondOfText } from '../../core/units/speed.ts'

describe('balls and their rule books', () => {
  // Each as its rule book prints it; see core/planning/balls.ts for the places, most quoted from memory.
  it.each([
    ['pickleball', 72.9, 75.4],
    ['tennis', 65.4, 68.6],
    ['table-tennis', 40, 40.6],
    ['golf', 42.67, 42.67],
    // Round 9 to 9¼ in: across 72.8 to 74.8 mm.
    ['baseball', 72.77, 74.79],
    // Round 22.4 to 22.9 cm: across 71.3 to 72.9 mm.
    ['cricket', 71.3, 72.9],
  ])('%s: %d to %d mm across', (id, least, most) => {
    const kind = ballNamed(id)!
    expect(kind.leastMetres * 1000).toBeCloseTo(least, 1)
    expect(kind.mostMetres * 1000).toBeCloseTo(most, 1)
    expect(kind.source).not.toBe('')
  })

  it('every ball has a name of its own', () => {
    expect(new Set(ballKinds.map(kind => kind.name)).size).toBe(ballKinds.length)
  })
})

describe('field of view', () => {
  it('a full-frame 50 mm lens sees 39.6° across 36 mm (tables of lens makers, common practice)', () => {
    // 36 mm at 50 mm is 1920 px at 2666.7 px.
    expect(focalOfAngle(1920, 39.6)).toBeCloseTo((1920 * 50) / 36, -1)
  })

  it('90° across sees as wide as twice the distance', () => {
    expect(focalOfAngle(1000, 90)).toBeCloseTo(500, 9)
    expect(focalOfWidth(1000, 4, 2)).toBeCloseTo(500, 9)
  })

  it('a ball of known size gives the focal length back (tangent cone: r = f·tan(asin(R/d)))', () => {
    const diameterPx = 2 * 1400 * Math.tan(Math.asin(0.037 / 0.5))
    expect(focalOfBall(diameterPx, 0.074, 0.5)).toBeCloseTo(1400, 6)
  })
})

describe('depth of field', () => {
  // A 50 mm lens on film 36 mm wide; 2400 px make two of them the blur of 0.03 mm that handbooks take.
  const film = (distanceMetres: number) => ({
    ...usualSetUp,
    widthPx: 2400,
    focalLengthPx: (2400 * 50) / 36,
    distanceMetres,
  })
  const lens = { fNumber: 8, sensorWidthMetres: 0.036 }

  it('50 mm at f/8 focused at 10.5 m is sharp from 5.2 m to very far (handbook tables; from memory)', () => {
    const { nearMetres, farMetres } = sharpFromTo(film(10.47), lens)
    expect(nearMetres).toBeCloseTo(5.23, 1)
    expect(farMetres === null || farMetres > 1000).toBe(true)
  })

  it('at its ends a point spreads over just two pixels (thin lens, by rays)', () => {
    const [f, opening, s] = [0.05, 0.05 / 8, 3]
    const image = (distance: number) => (f * distance) / (distance - f)
    const blur = (distance: number) => (opening * Math.abs(image(distance) - image(s))) / image(distance)
    const { nearMetres, farMetres } = sharpFromTo(film(s), lens)
    expect(blur(nearMetres)).toBeCloseTo(2 * (0.036 / 2400), 7)
    expect(blur(farMetres!)).toBeCloseTo(2 * (0.036 / 2400), 7)
  })
})

describe('exposure in stops', () => {
  // The marked series of shutters (ISO 516, from memory): each is one stop from the next, though 1/60 to 1/125 is rounded.
  it.each([
    [1 / 1000, 1 / 2000, 1, '1 stop more light'],
    [1 / 500, 1 / 4000, 3, '3 stops more light'],
    [1 / 60, 1 / 125, 1.06, '1 stop more light'],
    [1 / 2000, 1 / 1600, -0.32, '⅓ stop less light'],
    [1 / 1000, 1 / 1000, 0, 'no more light'],
  ])('from %d s to %d s', (from, to, stops, words) => {
    expect(stopsBetween(from, to)).toBeCloseTo(stops, 2)
    expect(stopsInWords(stopsBetween(from, to))).toBe(words)
  })
})

describe('free fall', () => {
  // s = g·t²/2 with g = 9.80665 m/s² (3rd CGPM, 1901): the seconds-table of every handbook.
  it.each([
    [0.1, 0.049],
    [0.5, 1.2258],
    [1, 4.9033],
    [2, 19.6133],
  ])('%d s without air: %d m', (seconds, metres) => {
    expect(fallen(seconds, 0, Number.POSITIVE_INFINITY)).toBeCloseTo(metres, 4)
  })
})

describe('what the fields take', () => {
  it.each([
    ['6 ft', 1.8288],
    ['2 m', 2],
    ['2.9in', 0.07366],
    ['74 mm', 0.074],
    ['0 m', null],
    ['-2 m', null],
    ['2 px', null],
    ['', null],
  ])('length “%s”', (text, metres) => {
    if (metres === null) expect(metresOfText(text)).toBeNull()
    else expect(metresOfText(text)).toBeCloseTo(metres, 9)
  })

  it.each([
    ['15 m/s', 15],
    ['36 km/h', 10],
    ['60 mph', 26.8224],
    ['0', null],
    ['fast', null],
  ])('speed “%s”', (text, speed) => {
    if (speed === null) expect(metresPerSecondOfText(text)).toBeNull()
    else expect(metresPerSecondOfText(text)).toBeCloseTo(speed, 9)
  })
})
