/**
 * How well Whorl reads clips by itself: the sample clips and hits of the generated test set, from the file to
 * the figure by the same code that the program runs.
 *
 *   npm run bench:auto [-- --count N] [-- --dir DIR] [-- --seed N] [-- --held-out] [-- --json]
 *
 * Hits of the set with that seed are rendered into DIR (kept from run to run). Every fourth is held out, its
 * lamp, backdrop, holes and logo never used for tuning: left out here unless `--held-out` asks for those alone. The
 * camera's exposure, readout and rate are given; its focal length in every other clip. `secondsPerHit` is the time of
 * one clip from its probe to its readings, decoding included.
 */
import { execFileSync } from 'node:child_process'
import { readdirSync, readFileSync } from 'node:fs'
import { tmpdir } from 'node:os'
import { join, resolve } from 'node:path'
import { fileURLToPath } from 'node:url'
import { parseArgs } from 'node:util'
import { build } from '../../electron/build.mjs'
import { createMedia } from '../../electron/media/create-media.ts'
import { createVision } from '../../electron/vision/vision.ts'
import type { Truth } from '../../sample-clips/renderer/truth-form.ts'
import { type Verdict, verdictsOf } from './auto/judge.ts'
import { type Contact, figuresOf } from './auto/summary.ts'

const { values } = parseArgs({
  options: {
    count: { type: 'string', default: '200' },
    dir: { type: 'string', default: join(tmpdir(), 'whorl-test-set') },
    seed: { type: 'string', default: '1' },
    'held-out': { type: 'boolean', default: false },
    json: { type: 'boolean', default: false },
  },
})
const say = (line: string) => process.stdout.write(`${line}\n`)
const checkout = fileURLToPath(new URL('../..', import.meta.url))
const folder = resolve(values.dir)
const heldOut = values['held-out']

type Case = { clip: string; truth: Truth; heldOut: boolean }
const cases = [...(heldOut ? [] : samples()), ...generated()]
await build()
const media = createMedia()
const vision = createVision(media)
const verdicts: Verdict[] = []
const contacts: Contact[] = []
const seconds: number[] = []
for (const [i, one] of cases.entries()) await judge(one, i)
await vision.close()
await media.close()
report()

function samples(): Case[] {
  const at = join(checkout, 'sample-clips')
  return truthsIn(at).map(truth => ({ clip: join(at, truth.clip), truth, heldOut: false }))
}

function generated(): Case[] {
  const make = join(checkout, 'sample-clips/renderer/make-test-set.ts')
  execFileSync(
    process.execPath,
    ['--import', 'tsx', make, '--count', values.count, '--dir', folder, '--seed', values.seed],
    {
      cwd: checkout,
      stdio: ['ignore', 'ignore', 'inherit'],
    },
  )
  const set = JSON.parse(readFileSync(join(folder, 'set.json'), 'utf8')) as {
    hits: { part: string; clip: string; truth: string }[]
  }
  return set.hits
    .filter(hit => (hit.part === 'held-out') === heldOut)
    .map(hit => ({
      clip: join(folder, hit.clip),
      truth: JSON.parse(readFileSync(join(folder, hit.truth), 'utf8')) as Truth,
      heldOut,
    }))
}

function truthsIn(at: string): Truth[] {
  const names = readdirSync(at).filter(name => name.endsWith('.truth.json'))
  return names.sort().map(name => JSON.parse(readFileSync(join(at, name), 'utf8')) as Truth)
}

async function judge({ clip: path, truth, heldOut: apart }: Case, i: number): Promise<void> {
  const { capture, ball } = truth
  const begun = performance.now()
  let failure = ''
  const clip = await media.probe(path, { captureFps: capture.fps })
  const read = await vision
    .readClip(path, {
      clip: { ...clip, capture: { ...clip.capture, relativeUncertainty: 1e-5 } },
      captureFps: capture.fps,
      exposureSeconds: capture.exposureSeconds,
      readoutSeconds: capture.readoutSeconds,
      readoutUncertaintySeconds: 1e-5,
      focalLengthPx: i % 2 === 0 ? capture.focalLengthPx : undefined,
      ballDiameterMetres: ball.diameterMetres,
    })
    .catch((error: Error) => {
      failure = error.message
      return null
    })
  seconds.push((performance.now() - begun) / 1000)
  const judged = verdictsOf(truth, read, apart, failure)
  verdicts.push(...judged)
  for (const v of judged) process.stderr.write(`${i + 1}/${cases.length} ${lineOf(v)}\n`)
  if (truth.contact && truth.flights.length > 1) {
    const { lastFrameBefore: trueFrame } = truth.contact
    contacts.push({ trueFrame, foundFrame: read?.contacts[0]?.lastFrameBefore ?? null })
  }
}

function report(): void {
  const figures = figuresOf(verdicts, contacts, seconds)
  const whole = verdicts.reduce((sum, v) => sum + v.framesWhole, 0)
  const found = verdicts.reduce((sum, v) => sum + v.framesFound, 0)
  const radius = verdicts.flatMap(v => v.radiusErrorsPercent).sort((a, b) => a - b)
  say(`${verdicts.length} flights in ${cases.length} clips${heldOut ? ', held out' : ''}`)
  for (const [name, value] of Object.entries(figures)) say(`  ${name}: ${Number(value.toPrecision(4))}`)
  say(`  frames found of those in which the ball is whole: ${((100 * found) / whole).toFixed(1)} %`)
  say(`  median radius error: ${(radius[radius.length >> 1] ?? Number.NaN).toFixed(2)} %`)
  say('Refused, missed or off by more than 0.5 %:')
  for (const v of verdicts) {
    const isGood = v.rateErrorPercent !== null && v.rateErrorPercent <= 0.5 && v.covered
    if (isGood || !v.belowCeiling) continue
    say(`  ${lineOf(v)}`)
  }
  if (values.json) say(JSON.stringify({ schema: 'whorl.bench/1', bench: 'auto', figures }))
}

function lineOf(v: Verdict): string {
  const figure = v.reading?.rpm == null ? 'none' : `${v.reading.rpm.toFixed(1)} rpm ${v.reading.flag}`
  const off = v.rateErrorPercent === null ? '' : `, ${v.rateErrorPercent.toFixed(3)} % off`
  const axis = v.axisErrorDeg === null ? '' : `, axis ${v.axisErrorDeg.toFixed(1)}°`
  const band = v.covered === false ? ', band misses' : ''
  const ceiling = v.belowCeiling ? '' : ' (above the ceiling)'
  return `${v.clip} flight ${v.flight}${ceiling}: ${figure}${off}${axis}${band}: ${v.why}`
}
