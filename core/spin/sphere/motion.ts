import { tangents, unit, type Vector } from '../../geometry/vector.ts'

/** One mark's place at time 0, as two steps along tangents from where the search put it. */
type Base = { place: Vector; tangents: readonly [Vector, Vector] }

/**
 * Where the model has a mark at a time, and how that answers to the unknowns: the rotation vector
 * (parameters 0 to 2) and the two tangent steps of the mark (parameters 3 + 2·mark and the next).
 *
 * u(t) = Rot(n, |ω|·t + repeat)·p, where `repeat` is a whole number of the mark's repeats. By the rotation
 * vector it moves by (t·n·(n·δ) + sin θ/|ω|·δ⊥ + (1 − cos θ)/|ω|·n × δ) × u: the derivative of a rotation by
 * its vector (see geometry/rotation-derivative.ts), except that the repeat turns with the axis alone.
 * One object is used over and over; nothing is allocated between marks, as fits run while a person clicks.
 */
export class Motion {
  /** The place, unit vector in camera axes. */
  readonly u = new Float64Array(3)
  /** du/dt, 1/s. */
  readonly speed = new Float64Array(3)
  /** ∂u/∂unknown, three numbers for each of the five unknowns that move this mark. */
  readonly slopes = new Float64Array(15)
  /** Another body-fixed vector where the last `carry` found it, and its slopes, see there. */
  readonly carried = new Float64Array(3)
  readonly carriedSlopes = new Float64Array(18)
  private readonly bases: Base[]
  private readonly places: Float64Array
  private readonly placeSlopes: Float64Array
  private readonly rotation = new Float64Array(9)
  /** Unit vector of the rotation. */
  readonly axis = new Float64Array(3)
  /** Length of the rotation vector. */
  rate = 0
  private mark = 0
  private timeSeconds = 0
  private sin = 0
  private versine = 0

  constructor(places: Vector[]) {
    this.bases = places.map(place => ({ place: unit(place), tangents: tangents(place) }))
    this.places = new Float64Array(3 * places.length)
    this.placeSlopes = new Float64Array(6 * places.length)
  }

  /** Takes the unknowns that the next calls of `move` stand for. */
  set(parameters: Float64Array): void {
    const x = parameters[0]!
    const y = parameters[1]!
    const z = parameters[2]!
    this.rate = Math.sqrt(x * x + y * y + z * z)
    const still = this.rate < 1e-9
    this.axis[0] = still ? 0 : x / this.rate
    this.axis[1] = still ? 0 : y / this.rate
    this.axis[2] = still ? 1 : z / this.rate
    this.bases.forEach(({ place, tangents: [e1, e2] }, mark) => {
      const a = parameters[3 + 2 * mark]!
      const b = parameters[4 + 2 * mark]!
      const size = 1 / Math.sqrt(1 + a * a + b * b)
      for (let i = 0; i < 3; i++) {
        const p = size * (place[i]! + a * e1[i]! + b * e2[i]!)
        this.places[3 * mark + i] = p
        this.placeSlopes[6 * mark + i] = size * (e1[i]! - p * a * size)
        this.placeSlopes[6 * mark + 3 + i] = size * (e2[i]! - p * b * size)
      }
    })
  }

  /** The places at time 0 that the unknowns stand for. */
  placesAtZero(): Vector[] {
    return this.bases.map((_, mark) => [...this.places.subarray(3 * mark, 3 * mark + 3)] as unknown as Vector)
  }

  /** Puts the mark at a time into `u` and, when asked, its slopes into `slopes`. */
  move(mark: number, timeSeconds: number, repeatRad: number, withSlopes: boolean): void {
    const { axis, rotation: r, u, rate } = this
    const theta = rate * timeSeconds + repeatRad
    const sin = Math.sin(theta)
    const cos = Math.cos(theta)
    const k = 1 - cos
    const x = axis[0]!
    const y = axis[1]!
    const z = axis[2]!
    r[0] = cos + k * x * x
    r[1] = k * x * y - sin * z
    r[2] = k * x * z + sin * y
    r[3] = k * x * y + sin * z
    r[4] = cos + k * y * y
    r[5] = k * y * z - sin * x
    r[6] = k * x * z - sin * y
    r[7] = k * y * z + sin * x
    r[8] = cos + k * z * z
    this.turn(this.places, 3 * mark, u, 0)
    const speed = this.speed
    speed[0] = rate * (y * u[2]! - z * u[1]!)
    speed[1] = rate * (z * u[0]! - x * u[2]!)
    speed[2] = rate * (x * u[1]! - y * u[0]!)
    this.mark = mark
    this.timeSeconds = timeSeconds
    this.sin = sin
    this.versine = k
    if (withSlopes) this.findSlopes()
  }

  /** The slopes of the place that the last `move` found. */
  findSlopes(): void {
    const { u, slopes, mark } = this
    this.byRotation(u, slopes)
    this.turn(this.placeSlopes, 6 * mark, slopes, 9)
    this.turn(this.placeSlopes, 6 * mark + 3, slopes, 12)
  }

  /**
   * Puts a body-fixed vector, given for time 0 as three numbers from `at` on, into `carried` as the last `move` has
   * turned it; and into `carriedSlopes` what it moves by, for the three components of the rotation vector and
   * then for its own three.
   */
  carry(vectors: ArrayLike<number>, at: number): void {
    const { rotation: r, carried, carriedSlopes } = this
    this.turn(vectors, at, carried, 0)
    this.byRotation(carried, carriedSlopes)
    for (let i = 0; i < 3; i++) {
      for (let k = 0; k < 3; k++) carriedSlopes[9 + 3 * i + k] = r[3 * k + i]!
    }
  }

  /** What a vector, turned already, moves by for the three components of the rotation vector. */
  private byRotation(u: Float64Array, slopes: Float64Array): void {
    const { axis, rate, timeSeconds } = this
    const x = axis[0]!
    const y = axis[1]!
    const z = axis[2]!
    const still = rate < 1e-9
    const a = still ? timeSeconds : this.sin / rate
    const b = still ? 0 : this.versine / rate
    const ux = u[0]!
    const uy = u[1]!
    const uz = u[2]!
    for (let i = 0; i < 3; i++) {
      const along = (timeSeconds - a) * axis[i]!
      // a·e + (t − a)(n·e)·n + b·n × e, for e the i-th axis
      const jx = along * x + (i === 0 ? a : i === 1 ? -b * z : b * y)
      const jy = along * y + (i === 0 ? b * z : i === 1 ? a : -b * x)
      const jz = along * z + (i === 0 ? -b * y : i === 1 ? b * x : a)
      slopes[3 * i] = jy * uz - jz * uy
      slopes[3 * i + 1] = jz * ux - jx * uz
      slopes[3 * i + 2] = jx * uy - jy * ux
    }
  }

  private turn(from: ArrayLike<number>, at: number, to: Float64Array, toAt: number): void {
    const r = this.rotation
    const x = from[at]!
    const y = from[at + 1]!
    const z = from[at + 2]!
    to[toAt] = r[0]! * x + r[1]! * y + r[2]! * z
    to[toAt + 1] = r[3]! * x + r[4]! * y + r[5]! * z
    to[toAt + 2] = r[6]! * x + r[7]! * y + r[8]! * z
  }
}
