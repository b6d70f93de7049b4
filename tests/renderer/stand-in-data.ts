import type { Backup } from '../../core/contract/backups.ts'
import type { CameraProfile } from '../../core/contract/cameras.ts'
import type { Clip } from '../../core/contract/clip.ts'
import type { Metric } from '../../core/contract/metrics.ts'
import { type Problem, WhorlError } from '../../core/contract/problem.ts'
import type { RatingRules } from '../../core/contract/rating-rules.ts'
import type { Flag, Reading } from '../../core/contract/reading.ts'
import type { ClipRecord, HitRow, Paddle, Session, SessionDetails } from '../../core/contract/workspace.ts'

/** A workspace's contents as plain lists, for a stand-in host. Names and places are invented. */
export type StandInData = {
  sessions: Session[]
  clips: ClipRecord[]
  hits: HitRow[]
  paddles: Paddle[]
  metrics?: Metric[]
  rules?: RatingRules
  backups?: Backup[]
  cameras?: CameraProfile[] | undefined
}

/** Seeded numbers from 0 to 1 (mulberry32, public domain). */
export function seeded(seed: number): () => number {
  let state = seed
  return () => {
    state = (state + 0x6d2b79f5) | 0
    let mixed = Math.imul(state ^ (state >>> 15), 1 | state)
    mixed = (mixed + Math.imul(mixed ^ (mixed >>> 7), 61 | mixed)) ^ mixed
    return ((mixed ^ (mixed >>> 14)) >>> 0) / 4294967296
  }
}

export const details = (given: Partial<SessionDetails> = {}): SessionDetails => ({
  day: '2026-05-14',
  place: 'North hall, court 2',
  camera: {
    name: 'Phone on the short tripod',
    captureFps: 240,
    relativeUncertainty: 0.0005,
    exposureSeconds: 1 / 2000,
    readoutSeconds: 0.0048,
    readoutUncertaintySeconds: 0.0005,
    focalLengthPx: 1480,
  },
  ball: { name: 'Indoor, logo inked over', diameterMetres: 0.074 },
  hitBy: 'Ball machine, 24 m/s, 35° open',
  maxRpm: 5000,
  clickStandardUncertaintyPx: 0.8,
  notes: '',
  ...given,
})

export const probeOf = (given: Partial<Clip> = {}): Clip => ({
  schema: 'whorl.clip/1',
  path: '/clips/serve-0001.mov',
  sha256: 'a'.repeat(64),
  bytes: 48_213_551,
  container: 'mov',
  codec: 'hevc',
  pixelFormat: 'yuv420p',
  widthPx: 1920,
  heightPx: 1080,
  rotationDeg: 0,
  frames: 768,
  durationSeconds: 3.2,
  playbackFps: 240,
  timestamps: { tickSeconds: 1 / 600, even: false, gaps: [], repeats: [] },
  capture: { fps: 240, source: 'timestamps', relativeUncertainty: 0.0005 },
  warnings: [],
  ...given,
})

/** A reading whose parts agree with each other: folding, counting and the root of the sum of squares. */
export function readingOf(rpm: number, halfWidthRpm: number, flag: Flag = 'clear', fps = 240): Reading {
  const perFrame = (360 * rpm) / (60 * fps)
  const frames = 24
  const turns = Math.max(1, Math.floor((frames * perFrame) / 360))
  const counted = Math.round((turns * 360) / perFrame)
  const u = halfWidthRpm / 2.06
  const none = flag === 'too-few-frames'
  const other = Math.abs(rpm - 60 * fps)
  return {
    window: { fromFrame: 212, toFrame: 212 + frames },
    method: 'bearing',
    rpm: none ? null : rpm,
    sense: none ? null : 'clockwise',
    band: none ? null : { lowRpm: rpm - halfWidthRpm, highRpm: rpm + halfWidthRpm, level: 0.95 },
    standardUncertaintyRpm: none ? null : u,
    effectiveDof: none ? null : 24.6,
    axis: null,
    parts: null,
    rotationPerFrameDeg: none ? null : perFrame,
    framesPerRevolution: none ? null : 360 / perFrame,
    flag,
    reasons: {
      clear: [],
      'near-ceiling': ['The band’s upper edge lies above 80 % of the ceiling.'],
      ambiguous: [
        `Turns ${Math.round(perFrame)}° a frame. Above 180° the camera cannot tell which way: ${Math.round(other)} rpm the other way fits as well.`,
      ],
      'too-few-frames': ['2 frames show the mark; a reading needs 3.'],
    }[flag],
    ceiling: { rpm: fps === 240 ? 7200 : 30 * fps, limit: 'sense' },
    candidates: none
      ? []
      : [
          { rpm, sense: 'clockwise', support: 1, plausible: true },
          {
            rpm: other,
            sense: 'counter-clockwise',
            support: flag === 'ambiguous' ? 0.97 : 0.4,
            plausible: other < 5000,
          },
        ],
    counted: none
      ? null
      : {
          turns,
          frames: counted,
          rpm: (60 * fps * turns) / counted,
          lowRpm: (60 * fps * turns) / (counted + 0.776),
          highRpm: (60 * fps * turns) / (counted - 0.776),
        },
    budget: none
      ? []
      : [
          {
            source: 'marking scatter',
            standardUncertaintyRpm: u * 0.82,
            kind: 'random',
            sharedByHits: false,
          },
          { source: 'outline', standardUncertaintyRpm: u * 0.41, kind: 'systematic', sharedByHits: false },
          { source: 'smear', standardUncertaintyRpm: u * 0.3, kind: 'random', sharedByHits: false },
          {
            source: 'capture rate',
            standardUncertaintyRpm: u * 0.22,
            kind: 'systematic',
            sharedByHits: true,
          },
          { source: 'timestamp tick', standardUncertaintyRpm: u * 0.11, kind: 'random', sharedByHits: false },
        ],
    flight: null,
    framesUsed: none ? 2 : frames + 1,
  }
}

const paddleNames = [
  'Umbra 13',
  'Umbra 16',
  'Fennick 14',
  'Orrery 14',
  'Tarn 16',
  'Skerry 13',
  'Lantern 14',
  'Quillon 16',
]
const places = ['North hall, court 2', 'Workshop wall', 'Outdoor court, shade', 'North hall, court 1']
const missing = (path: string): Problem => new WhorlError('file-not-found', { path }).toProblem()

/** A workspace of about so many sessions, clips and hits, with the odd things that happen to clips. */
export function manyOf(amounts: {
  sessions: number
  clips: number
  hits: number
  seed?: number
}): StandInData {
  const random = seeded(amounts.seed ?? 7)
  const paddles: Paddle[] = paddleNames.map((name, index) => ({
    id: `paddle-${index}`,
    name,
    notes: '',
    setUps: ['stock', 'weighted, 3 and 9 o’clock', 'overgrip'].slice(0, 1 + (index % 3)).map((setUp, at) => ({
      id: `set-up-${index}-${at}`,
      name: setUp,
      notes: '',
    })),
  }))
  const sessions: Session[] = Array.from({ length: amounts.sessions }, (_, index) => ({
    ...details({
      day: new Date(Date.UTC(2026, 4, 14 - index * 9)).toISOString().slice(0, 10),
      place: places[index % places.length]!,
      ...(index % 3 === 2 ? { camera: { ...details().camera, name: 'Small camera', captureFps: 120 } } : {}),
    }),
    id: `session-${index}`,
    clips: 0,
    hits: 0,
    accepted: 0,
    heldBack: 0,
  }))
  const clips: ClipRecord[] = Array.from({ length: amounts.clips }, (_, index) => {
    const name = `hit-${String(1400 + index * 3).padStart(4, '0')}.mov`
    const path = `/home/bench/clips/${name}`
    const odd = index % 13
    const gone = odd === 11
    const probe = probeOf({
      path,
      ...(odd === 3
        ? {
            playbackFps: 30,
            capture: { fps: null, source: 'unknown', relativeUncertainty: null },
            warnings: [
              {
                code: 'capture-rate-unknown',
                message: 'The file plays at 30 fps and does not say how fast it was filmed.',
              },
            ],
          }
        : odd === 6
          ? {
              warnings: [
                {
                  code: 'dropped-frames',
                  message: '3 frames are missing after frame 214; their gap is kept.',
                },
              ],
            }
          : {}),
    })
    return {
      id: `clip-${index}`,
      sessionId:
        sessions[Math.min(sessions.length - 1, Math.floor((index * 1.6 * sessions.length) / amounts.clips))]!
          .id,
      name,
      path,
      probe: gone ? null : probe,
      problem: gone ? missing(path) : null,
      hits: 0,
      accepted: 0,
    }
  })
  const usable = clips.filter(clip => clip.probe)
  const hits: HitRow[] = Array.from({ length: amounts.hits }, (_, index) => {
    const clip = usable[Math.floor((index * usable.length) / amounts.hits)]!
    const session = sessions.find(each => each.id === clip.sessionId)!
    const paddle = Math.floor(random() * paddles.length)
    const setUp = paddles[paddle]!.setUps[Math.floor(random() * paddles[paddle]!.setUps.length)]!
    const assigned = random() > 0.08
    const chance = random()
    const flag: Flag =
      chance > 0.24
        ? 'clear'
        : chance > 0.11
          ? 'near-ceiling'
          : chance > 0.03
            ? 'ambiguous'
            : 'too-few-frames'
    const rpm = 1750 + paddle * 55 + (random() + random() + random() - 1.5) * 340
    const reading =
      chance > 0.985
        ? null
        : readingOf(rpm, 6 + random() * random() * 70, flag, session.camera.captureFps ?? 240)
    const verdict: HitRow['verdict'] =
      flag === 'ambiguous' || flag === 'too-few-frames'
        ? { state: random() > 0.5 ? 'held-back' : 'open', reason: 'Waits for a second camera.' }
        : { state: random() > 0.3 ? 'accepted' : 'open', reason: '' }
    if (verdict.state !== 'held-back') verdict.reason = ''
    const fromFrame = 20 + ((index * 97) % 700)
    const window = { fromFrame, toFrame: fromFrame + 24 }
    if (reading) reading.window = window
    clip.hits++
    session.hits++
    if (verdict.state === 'accepted') {
      clip.accepted++
      session.accepted++
    }
    if (verdict.state === 'held-back') session.heldBack++
    return {
      hitId: `hit-${index}`,
      clipId: clip.id,
      sessionId: session.id,
      clipName: clip.name,
      day: session.day,
      setUpId: assigned ? setUp.id : null,
      paddle: assigned ? paddles[paddle]!.name : null,
      setUp: assigned ? setUp.name : null,
      window,
      verdict,
      reading,
      methodVersion: reading && '1',
      stale: chance > 0.97,
      notes: '',
    }
  })
  for (const clip of clips) sessions.find(each => each.id === clip.sessionId)!.clips++
  return { sessions, clips, hits, paddles }
}
