import { describe, expect, it } from 'vitest'
import { ballView, heightOverRim, pixelOf, placeAt, project } from '../../../core/geometry/ball-view.ts'
import { lineOfSight, viewRotation } from '../../../core/geometry/line-of-sight.ts'
import { outlineOfSphere, sphereOfOutline } from '../../../core/geometry/outline-of-sphere.ts'
import { placeUncertainty } from '../../../core/geometry/place-uncertainty.ts'
import { turned } from '../../../core/geometry/rotation.ts'
import { unit, type Vector } from '../../../core/geometry/vector.ts'

const outline = { xPx: 300, yPx: 500, radiusPx: 60 }
const camera = { focalPx: 900, xPx: 640, yPx: 360 }
const places: Vector[] = [[0, 0, -1], [0.4, -0.3, -Math.sqrt(0.75)], unit([-0.6, 0.5, -0.5])]

describe('a far view', () => {
  it('puts an offset (dx, dy) at (dx/r, dy/r, −√(1 − ρ²))', () => {
    const view = ballView(outline, null)
    const place = placeAt(view, 300 + 36, 500)
    expect(place[0]).toBeCloseTo(0.6, 12)
    expect(place[2]).toBeCloseTo(-0.8, 12)
  })
})

describe.each([
  ['a far view', ballView(outline, null)],
  ['a near view', ballView(outline, camera)],
])('%s', (_, view) => {
  it('finds each place again from its pixel', () => {
    for (const place of places) {
      const found = placeAt(view, ...pixelOf(view, place))
      found.forEach((x, i) => {
        expect(x).toBeCloseTo(place[i]!, 9)
      })
    }
  })

  it('takes a click outside the outline for the nearest place on the rim', () => {
    const place = placeAt(view, outline.xPx + 70, outline.yPx)
    // Under a pinhole the nearest point of the ray is taken, which is the rim to first order of what it misses by.
    expect(Math.abs(heightOverRim(view, place))).toBeLessThan(0.02)
  })

  it('answers to a moved place as a numeric slope says', () => {
    const seen = new Float64Array(5)
    const [u, step] = [places[1]!, 1e-6]
    project(view, u, seen)
    const [k, qx] = [seen[2]!, seen[3]!]
    const [a] = pixelOf(view, [u[0] + step, u[1], u[2]])
    const [b] = pixelOf(view, [u[0], u[1], u[2] + step])
    const [x] = pixelOf(view, u)
    expect((a - x) / step).toBeCloseTo(k, 2)
    expect((b - x) / step).toBeCloseTo(-k * qx, 2)
  })
})

describe('the outline of a sphere under a pinhole', () => {
  it('spans the tangent rays: on the axis its radius is f·tan α, sin α = R/d', () => {
    const { radiusPx } = outlineOfSphere({ toBall: [0, 0, 1], distanceRadii: 10 }, camera)
    expect(radiusPx).toBeCloseTo(900 * Math.tan(Math.asin(0.1)), 9)
  })

  it('has its centre halfway between the rays at θ + α and θ − α, outside where the ball’s centre is seen', () => {
    const theta = 0.5
    const alpha = Math.asin(0.1)
    const { xPx } = outlineOfSphere(
      { toBall: [Math.sin(theta), 0, Math.cos(theta)], distanceRadii: 10 },
      camera,
    )
    expect(xPx - camera.xPx).toBeCloseTo((900 * (Math.tan(theta + alpha) + Math.tan(theta - alpha))) / 2, 9)
    expect(xPx - camera.xPx).toBeGreaterThan(900 * Math.tan(theta))
  })

  it('leads back to the sphere', () => {
    const ball = { toBall: unit([0.4, -0.2, 0.9]), distanceRadii: 12 }
    const found = sphereOfOutline(outlineOfSphere(ball, camera), camera)
    expect(found.distanceRadii).toBeCloseTo(12, 5)
    found.toBall.forEach((x, i) => {
      expect(x).toBeCloseTo(ball.toBall[i]!, 8)
    })
  })
})

describe('the line of sight', () => {
  it('is the z axis turned by the view rotation', () => {
    const toBall = lineOfSight(camera, 1000, 100)
    turned(viewRotation(toBall), [0, 0, 1]).forEach((x, i) => {
      expect(x).toBeCloseTo(toBall[i]!, 12)
    })
  })
})

describe('the uncertainty of a place', () => {
  it('grows towards the rim as 1/cos θ, and stays finite on it', () => {
    expect(placeUncertainty(0.8, 0.001).towardsRimRad / 0.001).toBeCloseTo(1 / 0.6, 2)
    // Half an arc of √(2·0.03) rad: what a click error of 0.03 radii leaves open at the rim.
    expect(placeUncertainty(1, 0.03).towardsRimRad).toBeCloseTo(Math.sqrt(0.06), 2)
    expect(placeUncertainty(0, 0.03).aroundRad).toBe(0.03)
  })
})
