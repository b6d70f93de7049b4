import type { Vector } from '../../geometry/vector.ts'

/**
 * Directions spread evenly over half a sphere (z ≥ 0), no point of which is further than about
 * 1.9/√count radians from one of them.
 * Source: the spherical Fibonacci lattice, González, Mathematical Geosciences 42 (2010) 49.
 */
export function halfSphereGrid(count: number): Vector[] {
  const goldenAngle = Math.PI * (3 - Math.sqrt(5))
  return Array.from({ length: count }, (_, i) => {
    const z = (i + 0.5) / count
    const across = Math.sqrt(1 - z * z)
    return [across * Math.cos(i * goldenAngle), across * Math.sin(i * goldenAngle), z]
  })
}
