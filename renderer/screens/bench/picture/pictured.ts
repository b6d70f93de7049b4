import type { FramePicture } from '../../../../core/contract/calls.ts'
import { i420ToRgba } from '../../../../core/picture/i420.ts'
import { videoFrameOf } from '../../../components/paint-picture.ts'

/** A decoded picture ready to be drawn at once: whole for the ball, and small for the whole frame. */
export type Pictured = { whole: ImageBitmap; small: ImageBitmap; close(): void }

/** As wide as the whole frame is ever shown small, on a dense screen. */
const smallWidth = 640

/** Converted by the browser where it can, else by ours; scaled here, off the step's way. */
export async function picturedOf(picture: FramePicture): Promise<Pictured> {
  const whole = await bitmapOf(picture)
  const resizeWidth = Math.min(smallWidth, whole.width)
  const small = await createImageBitmap(whole, { resizeWidth, resizeQuality: 'medium' })
  return {
    whole,
    small,
    close: () => {
      whole.close()
      small.close()
    },
  }
}

/** A picture as the browser draws it fastest. */
export async function bitmapOf(picture: FramePicture): Promise<ImageBitmap> {
  if (typeof VideoFrame === 'undefined') {
    return createImageBitmap(new ImageData(i420ToRgba(picture), picture.widthPx, picture.heightPx))
  }
  const frame = videoFrameOf(picture)
  try {
    return await createImageBitmap(frame)
  } finally {
    frame.close()
  }
}
