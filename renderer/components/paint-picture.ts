import type { FramePicture } from '../../core/contract/calls.ts'

/**
 * Draws a decoded picture on a canvas of the picture's own size. The browser turns YUV into colour by
 * itself: video range, BT.709 (ITU-R BT.709-6), which cameras of today write.
 */
export function paintPicture(canvas: HTMLCanvasElement, picture: FramePicture) {
  const frame = videoFrameOf(picture)
  try {
    if (canvas.width !== picture.widthPx) canvas.width = picture.widthPx
    if (canvas.height !== picture.heightPx) canvas.height = picture.heightPx
    canvas.getContext('2d')?.drawImage(frame, 0, 0)
  } finally {
    frame.close()
  }
}

/** The picture as something that drawImage takes. Close it when done: it holds memory outside the page. */
export function videoFrameOf(picture: FramePicture): VideoFrame {
  return new VideoFrame(picture.data, {
    format: 'I420',
    codedWidth: picture.widthPx,
    codedHeight: picture.heightPx,
    timestamp: 0,
    colorSpace: { matrix: 'bt709', primaries: 'bt709', transfer: 'bt709', fullRange: false },
  })
}
