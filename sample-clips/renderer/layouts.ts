import { apply, dot, rotationBy, type Vec3 } from './vector.ts'

/** Rings of holes on one half of a ball: degrees from the pole, how many, turned by how many degrees. */
type Ring = readonly [polarDeg: number, holes: number, turnDeg: number]

const half = (rings: readonly Ring[], turnDeg: number): Vec3[] =>
  rings.flatMap(([polarDeg, holes, ringTurnDeg]) =>
    Array.from({ length: holes }, (_, i): Vec3 => {
      const polar = (polarDeg * Math.PI) / 180
      const turn = ((ringTurnDeg + turnDeg) * Math.PI) / 180 + (2 * Math.PI * i) / holes
      return [Math.sin(polar) * Math.cos(turn), Math.sin(polar) * Math.sin(turn), Math.cos(polar)]
    }),
  )

/** Both moulded halves are the same; the second is flipped about x and welded on with a turn. */
const twoHalves = (rings: readonly Ring[], weldTurnDeg: number): Vec3[] => [
  ...half(rings, 0),
  ...half(rings, weldTurnDeg).map(hole => apply(rotationBy([Math.PI, 0, 0]), hole)),
]

/** Hole patterns of our own, in the manner of moulded balls: two halves, rings about the poles, bare poles. */
const layouts = {
  forty: {
    holeRadiusMetres: 0.0041,
    holes: twoHalves(
      [
        [27, 4, 0],
        [52, 7, 20],
        [77, 9, 5],
      ],
      13,
    ),
  },
  'twenty-six': {
    holeRadiusMetres: 0.0056,
    holes: twoHalves(
      [
        [32, 4, 0],
        [68, 9, 12],
      ],
      20,
    ),
  },
  'thirty-two': {
    holeRadiusMetres: 0.0048,
    holes: twoHalves(
      [
        [30, 5, 0],
        [70, 11, 9],
      ],
      16,
    ),
  },
  'thirty-six': {
    holeRadiusMetres: 0.0044,
    holes: twoHalves(
      [
        [24, 3, 0],
        [48, 6, 30],
        [76, 9, 0],
      ],
      27,
    ),
  },
  /** No holes: a closed shell. */
  closed: { holeRadiusMetres: 0, holes: [] },
} satisfies Record<string, { holeRadiusMetres: number; holes: Vec3[] }>

export type LayoutName = keyof typeof layouts
/** Hole axes are unit vectors in the ball's own axes, z through the bare poles. */
export const layoutOf = (name: LayoutName): { holeRadiusMetres: number; holes: Vec3[] } => layouts[name]

/** A place without holes for a print: of many directions the one freest of holes for its nearness to `near`. */
export function freeSpot(name: LayoutName, near: Vec3): Vec3 {
  const { holes } = layoutOf(name)
  const merit = (at: Vec3) =>
    Math.acos(Math.max(-1, ...holes.map(hole => dot(hole, at)))) -
    0.25 * Math.acos(Math.min(1, dot(near, at)))
  // Golden-angle spiral: directions spread evenly over the sphere.
  const spots = Array.from({ length: 2000 }, (_, i): Vec3 => {
    const z = 1 - (2 * i + 1) / 2000
    const [ring, turn] = [Math.sqrt(1 - z * z), i * Math.PI * (3 - Math.sqrt(5))]
    return [ring * Math.cos(turn), ring * Math.sin(turn), z]
  })
  return spots.reduce((best, spot) => (merit(spot) > merit(best) ? spot : best))
}
