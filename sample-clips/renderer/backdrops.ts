import { lightOf } from './lamps.ts'
import type { Scene } from './scene.ts'
import * as textures from './textures.ts'
import { dot, type Vec3 } from './vector.ts'

/** A wall across the line of sight and a level surface before it, each with its own pattern. */
type Drawing = {
  wallZMetres: number
  wall: textures.Texture
  floor: textures.Texture
  /** The wall lies out of focus by this much at the picture's scale of 1000 px focal length. */
  blurPx: number
}

const drawings = {
  hall: {
    wallZMetres: 2.1,
    wall: textures.hallWall,
    floor: textures.rubberFloor,
    blurPx: 1.6,
  },
  workshop: {
    wallZMetres: 1.75,
    wall: textures.workshopWall,
    floor: textures.woodTable,
    blurPx: 1.2,
  },
  court: {
    wallZMetres: 3.4,
    wall: textures.fenceWall,
    floor: textures.courtFloor,
    blurPx: 1.8,
  },
  paper: {
    wallZMetres: 1.9,
    wall: textures.paperWall,
    floor: textures.paperWall,
    blurPx: 0.5,
  },
  curtain: {
    wallZMetres: 2.4,
    wall: textures.curtainWall,
    floor: textures.concreteFloor,
    blurPx: 1.4,
  },
  brick: {
    wallZMetres: 2.0,
    wall: textures.brickWall,
    floor: textures.concreteFloor,
    blurPx: 1.0,
  },
  shelves: {
    wallZMetres: 2.3,
    wall: textures.shelfWall,
    floor: textures.woodTable,
    blurPx: 1.8,
  },
} satisfies Record<string, Drawing>

export type BackdropName = keyof typeof drawings
/** Where a scene's wall and floor lie, and the slope y/z at which they meet. */
export function roomOf({ backdrop, room }: Scene): { wallZ: number; floorY: number; horizon: number } {
  const wallZ = drawings[backdrop].wallZMetres * room.scale
  return { wallZ, floorY: room.floorYMetres, horizon: room.floorYMetres / wallZ }
}

/** What stands still behind the ball: linear RGB, with a margin all round for the camera's sway. */
export type Backdrop = { widthPx: number; heightPx: number; marginPx: number; rgb: Float32Array }

/** The two surfaces of a room, each with its plane's normal towards the camera. */
export const surfaces = {
  wall: { normal: [0, 0, -1] as Vec3 },
  floor: { normal: [0, -1, 0] as Vec3 },
}

/** Light on a surface of the room: all of it, and the first lamp's share, which the ball can shade. */
export function lightOn(scene: Scene, normal: Vec3): { total: Vec3; shadedShare: number } {
  const light = lightOf(scene.lamp)
  const up = (1 - normal[1]) / 2
  const total = [0, 1, 2].map(i => {
    const c = i as 0 | 1 | 2
    const ambient = light.ground[c] + (light.sky[c] - light.ground[c]) * up
    return light.lamps.reduce((sum, l) => sum + l.rgb[c] * Math.max(0, dot(normal, l.towards)), ambient)
  }) as unknown as Vec3
  const first = light.lamps[0]!
  return { total, shadedShare: (first.rgb[1] * Math.max(0, dot(normal, first.towards))) / total[1] }
}

/** A running mean over 2·reach + 1 cells along rows of `stride`-spaced values. */
function smooth(
  rgb: Float32Array,
  lines: number,
  lineStep: number,
  cells: number,
  step: number,
  reach: number,
) {
  const line = new Float64Array(cells)
  for (let l = 0; l < lines; l++)
    for (let c = 0; c < 3; c++) {
      const base = l * lineStep + c
      for (let i = 0; i < cells; i++) line[i] = rgb[base + i * step]!
      const at = (i: number) => line[Math.max(0, Math.min(cells - 1, i))]!
      let sum = 0
      for (let i = -reach; i <= reach; i++) sum += at(i)
      for (let i = 0; i < cells; i++) {
        rgb[base + i * step] = sum / (2 * reach + 1)
        sum += at(i + reach + 1) - at(i - reach)
      }
    }
}

/** Paints the room as the camera sees it at rest. */
export function paintBackdrop(scene: Scene): Backdrop {
  const { camera } = scene
  const drawing = drawings[scene.backdrop]
  const { wallZ, floorY, horizon } = roomOf(scene)
  const { scale } = scene.room
  const marginPx = camera.shakePx === 0 ? 0 : Math.ceil(camera.shakePx) + 2
  const [widthPx, heightPx] = [camera.widthPx + 2 * marginPx, camera.heightPx + 2 * marginPx]
  const rgb = new Float32Array(widthPx * heightPx * 3)
  const [wallLight, floorLight] = [
    lightOn(scene, surfaces.wall.normal),
    lightOn(scene, surfaces.floor.normal),
  ]
  const albedo = new Float64Array(3)
  for (let row = 0; row < heightPx; row++)
    for (let column = 0; column < widthPx; column++) {
      const i = (row * widthPx + column) * 3
      for (let look = 0; look < 2; look++) {
        const x = (column + 0.25 + look / 2 - widthPx / 2) / camera.focalLengthPx
        const y = (row + 0.25 + look / 2 - heightPx / 2) / camera.focalLengthPx
        const onFloor = y > horizon
        if (onFloor) drawing.floor((x * floorY) / y / scale, floorY / y / scale, albedo)
        else drawing.wall((x * wallZ) / scale, (y * wallZ) / scale, albedo)
        const { total } = onFloor ? floorLight : wallLight
        for (let c = 0; c < 3; c++) rgb[i + c]! += (albedo[c]! * total[c as 0]) / 2
      }
    }
  const reach = Math.round((drawing.blurPx * camera.focalLengthPx) / 1000)
  for (let pass = 0; pass < 2 && reach > 0; pass++) {
    smooth(rgb, heightPx, widthPx * 3, widthPx, 3, reach)
    smooth(rgb, widthPx, 3, heightPx, widthPx * 3, reach)
  }
  return { widthPx, heightPx, marginPx, rgb }
}
