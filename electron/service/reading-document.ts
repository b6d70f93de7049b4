import type { ReadingDocument } from '../../core/contract/reading.ts'
import { methodVersion } from '../../core/spin/method-version.ts'
import type { ReadClip } from '../vision/read-clip.ts'
import { version } from './version.ts'

/** `whorl.reading/1` of a clip that was read by itself. */
export const readingDocumentOf = ({ clip, readings }: ReadClip): ReadingDocument => ({
  schema: 'whorl.reading/1',
  clip,
  readings,
  warnings: [],
  software: { version, methodVersion },
})
