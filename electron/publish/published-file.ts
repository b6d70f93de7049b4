import type { PublishedFile } from '../../core/contract/publish.ts'

const mediaTypes = {
  svg: 'image/svg+xml',
  png: 'image/png',
  gif: 'image/gif',
  webp: 'image/webp',
  mp4: 'video/mp4',
  html: 'text/html',
  pdf: 'application/pdf',
  txt: 'text/plain',
  md: 'text/markdown',
  csv: 'text/csv',
} as const

/** A file as it goes to page or command line, named by what it shows. */
export const publishedFile = (
  title: string,
  format: keyof typeof mediaTypes,
  bytes: string | Uint8Array,
  notes: string[] = [],
): PublishedFile => ({
  name: fileNameOf(title, format),
  mediaType: mediaTypes[format],
  base64: (typeof bytes === 'string' ? Buffer.from(bytes) : Buffer.from(bytes)).toString('base64'),
  notes,
})

/** A name that every system takes: letters, digits and dashes, never a path. */
export const fileNameOf = (title: string, ending: string): string => {
  const words = title.normalize('NFKC').replace(/[^\p{L}\p{N}]+/gu, '-')
  return `${words.slice(0, 60).replace(/^-|-$/g, '') || 'whorl'}.${ending}`
}
