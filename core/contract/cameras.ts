import { z } from 'zod'

const day = z.string().regex(/^\d{4}-\d{2}-\d{2}$/, 'expected a day as 2026-05-31')
const positive = z.number().positive()

/** What a figure of a camera was found by: the check of a clip, or a person's word. */
export const foundBySchema = z.object({
  way: z.enum([
    'turntable',
    'drop',
    'lamp',
    'counter',
    'bands',
    'spin',
    'edge',
    'ball',
    'view',
    'width',
    'said',
  ]),
  /** File name of the clip that was checked; null where there was none. */
  clip: z.string().max(300).nullable(),
  day,
})
export type FoundBy = z.infer<typeof foundBySchema>

/** A camera in one of its modes, as it was measured. A null is "not known", never a default in disguise. */
export const cameraProfileDetailsSchema = z.strictObject({
  name: z.string().trim().min(1).max(200),
  /** The mode: the picture's size, and the rate that the camera is set to. */
  widthPx: z.int().min(16).max(20_000).nullable(),
  heightPx: z.int().min(16).max(20_000).nullable(),
  nominalFps: positive.max(1e6),
  /** The rate at which it truly films; `relativeUncertainty` is a standard uncertainty. */
  rate: z
    .object({
      captureFps: positive.max(1e6),
      relativeUncertainty: z.number().min(0).max(1),
      by: foundBySchema,
    })
    .nullable(),
  readout: z
    .object({
      seconds: z.number().min(0).max(1),
      uncertaintySeconds: z.number().min(0).max(1).nullable(),
      by: foundBySchema,
    })
    .nullable(),
  focal: z
    .object({ focalLengthPx: positive, uncertaintyPx: z.number().min(0).nullable(), by: foundBySchema })
    .nullable(),
  /** What it usually films with. */
  exposureSeconds: positive.nullable(),
  notes: z.string().max(2000),
})
export type CameraProfileDetails = z.infer<typeof cameraProfileDetailsSchema>
export type CameraProfile = CameraProfileDetails & { id: string }

/** The values that a session's camera took from a profile, as they were then: a copy, not a link. */
export const takenFromSchema = z.object({
  name: z.string(),
  captureFps: positive.nullable(),
  relativeUncertainty: z.number().min(0).nullable(),
  exposureSeconds: positive.nullable(),
  readoutSeconds: z.number().min(0).nullable(),
  readoutUncertaintySeconds: z.number().min(0).nullable(),
  focalLengthPx: positive.nullable(),
})
export type TakenFrom = z.infer<typeof takenFromSchema>

/** `whorl.cameras/1`: the cameras of a workspace, by name. */
export const camerasDocumentSchema = z.object({
  schema: z.literal('whorl.cameras/1'),
  cameras: z.array(cameraProfileDetailsSchema.extend({ id: z.string() })),
})
export const camerasDocumentOf = (cameras: CameraProfile[]): z.infer<typeof camerasDocumentSchema> => ({
  schema: 'whorl.cameras/1',
  cameras,
})
