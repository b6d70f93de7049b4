import { lightOn, roomOf, surfaces } from './backdrops.ts'
import { lightOf } from './lamps.ts'
import { swayAt } from './motion.ts'
import { project } from './outline.ts'
import { centreAt, momentsOf, type Region, regionAround } from './region.ts'
import type { Scene } from './scene.ts'
import { across, add, cross, scale, type Vec3 } from './vector.ts'

/** Perforated shells let some of the lamp through. */
const SHELL_SHADE = 0.88

type Plane = { at: 'wall' | 'floor'; axis: 1 | 2; value: number }

/** Along the lamp's light from `point` on to the plane. */
function cast(point: Vec3, towards: Vec3, plane: Plane): Vec3 | null {
  const s = (point[plane.axis] - plane.value) / towards[plane.axis]
  return s > 0 ? add(point, scale(towards, -s)) : null
}

/** Darkens the picture where the ball stands between the first lamp and wall or floor. Returns what it touched. */
export function throwShadow(scene: Scene, t: number, rgb: Float32Array): Region[] {
  const { wallZ, floorY, horizon } = roomOf(scene)
  const lamp = lightOf(scene.lamp).lamps[0]!
  const radius = scene.ball.diameterMetres / 2
  const moments = momentsOf(scene, t)
  const centres = [1, 3, 5, 7].map(i => centreAt(scene, moments[i]!))
  const [swayX, swayY] = swayAt(scene, t)
  const { widthPx, heightPx, focalLengthPx } = scene.camera
  const planes: Plane[] = [
    { at: 'wall', axis: 2, value: wallZ },
    { at: 'floor', axis: 1, value: floorY },
  ]
  const side = across(lamp.towards)
  const other = cross(lamp.towards, side)

  const touched: Region[] = []
  for (const plane of planes) {
    const { shadedShare } = lightOn(scene, surfaces[plane.at].normal)
    if (shadedShare < 0.02) continue
    const soft = (centre: Vec3, at: Vec3) =>
      Math.hypot(...[0, 1, 2].map(i => at[i as 0] - centre[i as 0])) * lamp.halfAngleRad
    const rim = [centres[0]!, centres[3]!].flatMap(centre => {
      const middle = cast(centre, lamp.towards, plane)
      if (middle === null) return []
      const reach = radius + soft(centre, middle)
      return Array.from({ length: 12 }, (_, i) => (i * Math.PI) / 6).flatMap(turn => {
        const edge = add(scale(side, reach * Math.cos(turn)), scale(other, reach * Math.sin(turn)))
        const at = cast(add(centre, edge), lamp.towards, plane)
        return at === null || at[2] < 0.2 ? [] : [project(at, scene.camera)]
      })
    })
    if (rim.length < 24) continue
    const region = regionAround(
      rim.map(([x, y]) => [x + swayX, y + swayY] as const),
      2,
      scene.camera,
    )
    if (region === null) continue
    for (let row = region.top; row < region.bottom; row++) {
      const y = (row + 0.5 - heightPx / 2 - swayY) / focalLengthPx
      if (y > horizon !== (plane.at === 'floor')) continue
      const z = plane.at === 'floor' ? plane.value / y : plane.value
      for (let column = region.left; column < region.right; column++) {
        const x = (column + 0.5 - widthPx / 2 - swayX) / focalLengthPx
        let shade = 0
        for (const centre of centres) {
          const px = centre[0] - x * z
          const py = centre[1] - y * z
          const pz = centre[2] - z
          const along = px * lamp.towards[0] + py * lamp.towards[1] + pz * lamp.towards[2]
          if (along < 0) continue
          const off = Math.sqrt(Math.max(0, px * px + py * py + pz * pz - along * along))
          const width = Math.max(0.002, along * lamp.halfAngleRad)
          const k = Math.max(0, Math.min(1, (radius + width - off) / (2 * width)))
          shade += k * k * (3 - 2 * k) * Math.min(1, (radius / width) ** 2)
        }
        const left = 1 - (SHELL_SHADE * shadedShare * shade) / centres.length
        const i = (row * widthPx + column) * 3
        rgb[i]! *= left
        rgb[i + 1]! *= left
        rgb[i + 2]! *= left
      }
    }
    touched.push(region)
  }
  return touched
}
