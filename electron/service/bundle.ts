import { resolve } from 'node:path'
import { encode } from 'fast-png'
import type { Service } from '../../core/contract/calls.ts'
import { makeBundle } from '../bundle/make-bundle.ts'
import { putFile } from '../export/put-file.ts'
import type { Parts } from './parts.ts'

const thumbnailWidthPx = 320

/** The evidence behind a paddle's or a session's figures, as one file. */
export const bundleCalls = ({ workspace, media, reader, version }: Parts): Pick<Service, 'bundle.make'> => ({
  'bundle.make': async ({ kind, id, path }, { signal }) => {
    reader.readStale({})
    const picture = async (clipId: string, frame: number) => {
      try {
        const lent = await media.frame(workspace.clip(clipId).path, frame, {
          maxWidthPx: thumbnailWidthPx,
          signal,
        })
        const { widthPx: width, heightPx: height, data } = lent
        const png = encode({ width, height, data: data.slice(0, width * height), channels: 1, depth: 8 })
        lent.done?.()
        return png
      } catch (thrown) {
        if (signal.aborted) throw thrown
        // A clip that is not at hand leaves its pictures out; the figures do not rest on them.
        return null
      }
    }
    const bytes = await makeBundle(workspace, { kind, id }, version, picture)
    putFile(resolve(path), bytes, { keep: false })
    return { path: resolve(path), bytes: bytes.length }
  },
})
