import type { Rotation } from './rotation.ts'
import type { Vector } from './vector.ts'

/**
 * How a rotation answers to a small change of its vector: rotating by w + δ equals rotating by w and then
 * by the small vector J·δ. So a turned point u = R(w)·p moves by (J·δ) × u.
 *
 * J = sin θ/θ·I + (1 − sin θ/θ)·n nᵀ + (1 − cos θ)/θ·[n]×, θ = |w|, n = w/θ; row by row.
 * Source: the left Jacobian of SO(3), for instance Solà, Deray, Atchuthan, arXiv 1812.01537, eq. 145.
 */
export function rotationDerivative(w: Vector): Rotation {
  const theta = Math.hypot(w[0], w[1], w[2])
  if (theta < 1e-6) {
    const [x, y, z] = [w[0] / 2, w[1] / 2, w[2] / 2]
    return [1, -z, y, z, 1, -x, -y, x, 1]
  }
  const [x, y, z] = [w[0] / theta, w[1] / theta, w[2] / theta]
  const s = Math.sin(theta) / theta
  const k = 1 - s
  const half = Math.sin(theta / 2)
  const c = (2 * half * half) / theta
  return [
    s + k * x * x,
    k * x * y - c * z,
    k * x * z + c * y,
    k * x * y + c * z,
    s + k * y * y,
    k * y * z - c * x,
    k * x * z - c * y,
    k * y * z + c * x,
    s + k * z * z,
  ]
}
