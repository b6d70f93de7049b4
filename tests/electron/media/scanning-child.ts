import { createMedia } from '../../../electron/media/create-media.ts'

/** A host in the midst of work on a clip, which says so and leaves when its standard input ends. */
const path = process.argv[2]!
const media = createMedia({ programs: 'packages' })
await media.timestamps(path)
media.probe(path).catch(() => {})
media.prepare(path, { fromFrame: 20_000, toFrame: 20_010 }).catch(() => {})
let said = false
for await (const { frame } of media.lumaWindow(path, { fromFrame: 0, toFrame: 20_000 })) {
  if (frame < 10) continue
  if (!said) process.stdout.write('working\n')
  said = true
  if (process.stdin.readableEnded) process.exit(0)
  process.stdin.resume()
}
