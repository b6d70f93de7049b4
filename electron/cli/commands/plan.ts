import { type PlannedMark, plannedMarkSchema, planSetUpSchema } from '../../../core/contract/plan.ts'
import { WhorlError } from '../../../core/contract/problem.ts'
import { absurdIn } from '../../../core/planning/absurd.ts'
import { ballKinds, ballNamed } from '../../../core/planning/balls.ts'
import { focalOfAngle, focalOfWidth } from '../../../core/planning/field-of-view.ts'
import { planOf } from '../../../core/planning/plan.ts'
import { usualSetUp } from '../../../core/planning/usual-set-up.ts'
import { command, json } from '../command.ts'
import { planForeseen } from '../plan-foreseen.ts'
import {
  angleDegrees,
  durationSeconds,
  lengthMetres,
  oneOf,
  pictureSize,
  positiveNumber,
  speedMetresPerSecond,
} from '../values.ts'

const known = ballKinds.map(kind => kind.id)
const valued = <T>(takes: string, says: string, read: (text: string, option: string) => T) => ({
  takes,
  says,
  read,
})

export default command({
  says:
    'What a camera can do with a hit before it is filmed: the ball’s size, frames and turns in view, smear,\n' +
    'every ceiling, the band to expect from fitting and from counting, what limits and what helps. The bands\n' +
    'are those of imagined hits, read by the code that reads real ones.',
  takes: '',
  words: { least: 0, most: 0 },
  options: {
    fps: valued('N', 'capture rate, frames a second (240)', positiveNumber),
    exposure: valued('T', 'how long the shutter is open (1/1000)', durationSeconds),
    rpm: valued('N', 'spin to expect (2000)', positiveNumber),
    speed: valued('V', 'speed of the ball, as 15m/s, 34mph or 55km/h (15m/s)', speedMetresPerSecond),
    picture: valued('WxH', 'picture in pixels (1920x1080)', pictureSize),
    view: valued('ANGLE', 'field of view across the picture, as 60 or 60° (60°)', angleDegrees),
    'view-width': valued('L', 'or: how wide the picture is where the ball flies', lengthMetres),
    'focal-px': valued('N', 'or: focal length in pixels', positiveNumber),
    distance: valued('L', 'from the lens to the ball, as 2m or 6ft (2m)', lengthMetres),
    readout: valued('T', 'rolling shutter, first row to last (4ms)', durationSeconds),
    ball: valued('NAME', known.join(', '), oneOf(known)),
    'ball-diameter': valued('L', 'or: the ball’s size across', lengthMetres),
    mark: valued('KIND', plannedMarkSchema.options.join(', '), oneOf<PlannedMark>(plannedMarkSchema.options)),
    'mark-from-axis': valued('ANGLE', 'between mark and spin axis (50°)', angleDegrees),
    tilt: valued('ANGLE', 'between spin axis and line of sight (0°)', angleDegrees),
    'sense-known': { says: 'which way each shot spins is known' },
    click: valued('N', 'click error, px (1.5)', positiveNumber),
    frames: valued('N', 'frames marked at most (40)', positiveNumber),
    between: valued('N', 'rpm from hit to hit, standard deviation (80)', positiveNumber),
    wanted: valued('N', 'half-width of the mean’s band, rpm (50)', positiveNumber),
    'f-number': valued('N', 'of the lens, with --sensor-width: where the ball is sharp', positiveNumber),
    'sensor-width': valued('L', 'width of the part of the sensor that makes the picture', lengthMetres),
    now: valued('T', 'exposure that the light is enough for now', durationSeconds),
    json,
  },
  example: 'whorl plan --fps 240 --exposure 1/2000 --rpm 2300 --distance 6ft',
  run: async ({ options }, world) => {
    const [widthPx, heightPx] = options.picture ?? [usualSetUp.widthPx, usualSetUp.heightPx]
    const distanceMetres = options.distance ?? usualSetUp.distanceMetres
    const read = planSetUpSchema.safeParse({
      captureFps: options.fps ?? usualSetUp.captureFps,
      exposureSeconds: options.exposure ?? usualSetUp.exposureSeconds,
      readoutSeconds: options.readout ?? usualSetUp.readoutSeconds,
      widthPx,
      heightPx,
      focalLengthPx:
        options['focal-px'] ??
        (options['view-width'] === undefined
          ? focalOfAngle(widthPx, options.view ?? 60)
          : focalOfWidth(widthPx, options['view-width'], distanceMetres)),
      distanceMetres,
      ballDiameterMetres:
        options['ball-diameter'] ??
        ballNamed(options.ball ?? '')?.diameterMetres ??
        usualSetUp.ballDiameterMetres,
      rpm: options.rpm ?? usualSetUp.rpm,
      speedMetresPerSecond: options.speed ?? usualSetUp.speedMetresPerSecond,
      mark: options.mark ?? usualSetUp.mark,
      markFromAxisDeg: options['mark-from-axis'] ?? usualSetUp.markFromAxisDeg,
      axisTiltDeg: options.tilt ?? usualSetUp.axisTiltDeg,
      senseKnown: options['sense-known'],
      clickPx: options.click ?? usualSetUp.clickPx,
      mostFrames: options.frames ?? usualSetUp.mostFrames,
      betweenHitSdRpm: options.between ?? usualSetUp.betweenHitSdRpm,
      wantedHalfWidthRpm: options.wanted ?? usualSetUp.wantedHalfWidthRpm,
      presentExposureSeconds: options.now ?? null,
    })
    if (!read.success) {
      const { path, message } = read.error.issues[0]!
      throw new WhorlError('usage', {
        what: `${path.join('.')} cannot be used: ${message}.`,
        hint: 'See whorl plan --help for what each option takes.',
      })
    }
    const absurd = absurdIn(read.data)
    if (absurd) throw new WhorlError('usage', { what: absurd.what, hint: absurd.hint })
    const [fNumber, sensorWidthMetres] = [options['f-number'], options['sensor-width']]
    if ((fNumber === undefined) !== (sensorWidthMetres === undefined))
      throw new WhorlError('usage', {
        what: `--${fNumber === undefined ? 'f-number' : 'sensor-width'} is missing.`,
        hint: 'Give both, as --f-number 1.8 --sensor-width 7.6mm.',
      })
    const lens =
      fNumber === undefined || sensorWidthMetres === undefined ? null : { fNumber, sensorWidthMetres }
    const plan = planOf(read.data, lens)
    world.out(options.json ? `${JSON.stringify(plan)}\n` : planForeseen(plan))
    return 0
  },
})
