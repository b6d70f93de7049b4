import { vi } from 'vitest'

/** Pictures are for eyes; in a page without any they only have to exist. Until `vi.unstubAllGlobals`. */
export function standInPictures(): void {
  vi.stubGlobal('createImageBitmap', async () => ({ width: 960, height: 540, close: () => {} }))
  vi.stubGlobal(
    'VideoFrame',
    class {
      close() {}
    },
  )
}
