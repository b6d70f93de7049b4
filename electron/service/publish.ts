import type { Service } from '../../core/contract/calls.ts'
import { accentFaults } from '../../core/picture/accent-faults.ts'
import { i420ToRgba } from '../../core/picture/i420.ts'
import { svgOf } from '../../core/picture/svg-of.ts'
import { clipDrawing } from '../publish/clip-drawing.ts'
import { figureFile } from '../publish/figure-files.ts'
import { fontFace } from '../publish/fonts.ts'
import { hitClip } from '../publish/hit-clip.ts'
import { hitEvidence } from '../publish/hit-evidence.ts'
import { htmlOf } from '../publish/html-of.ts'
import { pdfOf } from '../publish/pdf-of.ts'
import { pngOfPhotograph } from '../publish/photograph.ts'
import { drawPicture, type RatingCalls } from '../publish/pictures.ts'
import { pngOf } from '../publish/png-of.ts'
import { publishedFile } from '../publish/published-file.ts'
import { reportOn } from '../publish/reports.ts'
import type { Parts } from './parts.ts'
import { publishMany } from './publish-many.ts'
import { dropLook, keepLook, looksOf } from './saved-looks.ts'

export type FileCalls = Pick<Service, 'publish.picture' | 'publish.report' | 'publish.clip'>
type Calls =
  | keyof FileCalls
  | 'publish.clipFrame'
  | 'publish.batch'
  | 'publish.looks'
  | 'publish.keepLook'
  | 'publish.dropLook'

/** What a reviewer shows: made from the stored evidence alone, so the same evidence gives the same bytes. */
export const publishCalls = (parts: Parts, ratings: RatingCalls): Pick<Service, Calls> => {
  const files = fileCalls(parts, ratings)
  return {
    ...files,
    'publish.clipFrame': async ({ order, frame }, { signal }) => {
      const hit = hitEvidence(parts, order.hitId)
      const { fromFrame, toFrame } = hit.window
      const drawn = await clipDrawing(parts.media, hit, order).draw(
        Math.min(fromFrame + frame, toFrame),
        signal,
      )
      const data = i420ToRgba({ ...drawn, data: new Uint8Array(drawn.data) })
      return publishedFile(hit.name, 'png', pngOfPhotograph({ ...drawn, data }))
    },
    'publish.batch': (order, context) => publishMany(parts, ratings, files, order, context),
    'publish.looks': async () => looksOf(parts.workspace),
    'publish.keepLook': async ({ saved }) => keepLook(parts, saved),
    'publish.dropLook': async ({ name }) => dropLook(parts, name),
  }
}

const fileCalls = (parts: Parts, ratings: RatingCalls): FileCalls => ({
  'publish.picture': async (order, context) => {
    const scene = await drawPicture(parts, ratings, order, context)
    const bytes = order.format === 'svg' ? svgOf(scene, { fontFace: fontFace() }) : pngOf(scene)
    return publishedFile(scene.title, order.format, bytes, accentFaults(order.look))
  },
  'publish.clip': async (order, context) => {
    const hit = hitEvidence(parts, order.hitId)
    const { film, note } = await hitClip(parts.media, hit, order, context)
    return publishedFile(hit.name, order.format, film, note === null ? [] : [note])
  },
  'publish.report': async (order, context) => {
    const { format } = order
    if (format === 'txt' || format === 'md' || format === 'csv')
      return publishedFile('spin', format, await figureFile(parts, ratings, order, format, context))
    const report = await reportOn(parts, ratings, order, context)
    const bytes = format === 'html' ? htmlOf(report) : await pdfOf(report)
    return publishedFile(
      report.title,
      format,
      bytes,
      accentFaults({ theme: 'light', accents: order.accents }),
    )
  },
})
