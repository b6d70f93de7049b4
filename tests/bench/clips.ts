/**
 * The clip check on clips whose truth is known: how many clean ones, of several coders and muxers, give a finding
 * that is not true of them, and whether each thing that was built into a clip is found.
 *
 *   npm run bench:clips [-- --only PART-OF-NAME] [-- --json]
 */
import { mkdtempSync, rmSync } from 'node:fs'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import { parseArgs } from 'node:util'
import { createMedia } from '../../electron/media/create-media.ts'
import { cleanChecked, judged, spoiledChecked } from './clips/check.ts'
import { cleanClips, cleanSamples } from './clips/clean.ts'
import { spoiledClips } from './clips/spoiled.ts'

const { values } = parseArgs({
  options: { only: { type: 'string', default: '' }, json: { type: 'boolean', default: false } },
})
const wanted = ({ name }: { name: string }) => name.includes(values.only)
const folder = mkdtempSync(join(tmpdir(), 'whorl-bench-clips-'))
const media = createMedia()
const say = (line: string) => process.stdout.write(`${line}\n`)
const samples = join(import.meta.dirname, '../../sample-clips')
const figures = { clean: 0, falseAlarms: 0, missedOnClean: 0, spoiled: 0, found: 0, notMade: 0 }

try {
  say('Clean clips: what is said of them that is not so')
  for (const clip of cleanClips.filter(wanted))
    await clean(clip.name, () => cleanChecked(media, clip, folder))
  for (const [name, expected] of Object.entries(cleanSamples).filter(([name]) => wanted({ name })))
    await clean(name, () => judged(media, join(samples, name), expected))
  say('Spoiled clips: whether it is found, and what else is said')
  for (const clip of spoiledClips.filter(wanted)) {
    const checked = await made(clip.name, () => spoiledChecked(media, clip, folder))
    if (!checked) continue
    figures.spoiled++
    if (checked.found) figures.found++
    const others = checked.others.length > 0 ? `; also ${checked.others.join(', ')}` : ''
    say(
      `  ${checked.found ? 'found ' : 'MISSED'}  ${checked.name.padEnd(30)}${checked.finds}: ${checked.message}${others}`,
    )
  }
} finally {
  await media.close()
  rmSync(folder, { recursive: true, force: true })
}
say(
  `${figures.falseAlarms} of ${figures.clean} clean clips gave a false alarm (target 0); ${figures.found} of ${figures.spoiled} things built in were found (target all); ${figures.notMade} clips could not be made here.`,
)
if (values.json) say(JSON.stringify({ schema: 'whorl.bench/1', bench: 'clips', figures }))

async function clean(name: string, check: () => ReturnType<typeof judged>): Promise<void> {
  const checked = await made(name, check)
  if (!checked) return
  figures.clean++
  if (checked.alarms.length > 0) figures.falseAlarms++
  if (checked.missed.length > 0) figures.missedOnClean++
  const words = [...checked.alarms, ...checked.missed.map(code => `not said: ${code}`)]
  say(`  ${words.length === 0 ? 'quiet ' : 'ALARM '}  ${name.padEnd(30)}${words.join('; ')}`)
}

/** A coder that is not on this machine leaves its clip out, and that is said. */
async function made<T>(name: string, check: () => Promise<T>): Promise<T | null> {
  try {
    return await check()
  } catch (error) {
    figures.notMade++
    say(`  -       ${name.padEnd(30)}${(error as Error).message.split('\n')[0]}`)
    return null
  }
}
