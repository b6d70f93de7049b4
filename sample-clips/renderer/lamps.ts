import { unit, type Vec3 } from './vector.ts'

/** Far lamps: direction towards the lamp in camera axes, linear RGB irradiance, half angle of the lamp's disc. */
export type Lamp = { towards: Vec3; rgb: Vec3; halfAngleRad: number }
/** The first lamp throws the shadow that is drawn on wall and table. */
export type Light = { lamps: Lamp[]; sky: Vec3; ground: Vec3 }

const lamp = (towards: Vec3, rgb: Vec3, halfAngleRad: number): Lamp => ({
  towards: unit(towards),
  rgb,
  halfAngleRad,
})

const lights = {
  'overhead-panel': {
    lamps: [lamp([-0.3, -0.85, -0.5], [0.78, 0.78, 0.76], 0.12)],
    sky: [0.36, 0.37, 0.38],
    ground: [0.16, 0.15, 0.14],
  },
  'side-window': {
    lamps: [lamp([-0.85, -0.35, -0.5], [0.82, 0.84, 0.88], 0.2)],
    sky: [0.26, 0.26, 0.27],
    ground: [0.15, 0.14, 0.13],
  },
  'low-sun': {
    lamps: [lamp([0.62, -0.48, -0.62], [1.0, 0.93, 0.8], 0.01)],
    sky: [0.24, 0.28, 0.34],
    ground: [0.14, 0.14, 0.13],
  },
  'two-floods': {
    lamps: [
      lamp([-0.6, -0.45, -0.7], [0.5, 0.5, 0.48], 0.05),
      lamp([0.75, -0.5, -0.45], [0.4, 0.4, 0.41], 0.05),
    ],
    sky: [0.22, 0.22, 0.22],
    ground: [0.12, 0.12, 0.12],
  },
  'back-flood': {
    lamps: [lamp([0.35, -0.75, 0.3], [0.9, 0.88, 0.84], 0.08)],
    sky: [0.34, 0.34, 0.36],
    ground: [0.24, 0.23, 0.22],
  },
} satisfies Record<string, Light>

export type LampName = keyof typeof lights
export const lightOf = (name: LampName): Light => lights[name]
