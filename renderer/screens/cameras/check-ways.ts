import type { CheckWay } from '../../../core/contract/checks.ts'
import type { FocalWay } from '../../../core/contract/focal-check.ts'

/** What of a camera is made sure of. */
export type Checked = 'rate' | 'readout' | 'focal'
export type GuideWay = CheckWay | FocalWay

export type CheckTexts = Record<
  | 'rpm'
  | 'knownTo'
  | 'ball'
  | 'mass'
  | 'mains'
  | 'step'
  | 'steps'
  | 'fromFrame'
  | 'toFrame'
  | 'distance'
  | 'distanceTo'
  | 'across'
  | 'angle'
  | 'angleTo'
  | 'wide'
  | 'wideTo',
  string
>
export type CheckField = keyof CheckTexts
export const startCheck: CheckTexts = {
  rpm: '33 1/3',
  knownTo: '0.2 %',
  ball: 'Pickleball',
  mass: '24 g',
  mains: '50 Hz',
  step: '1 s',
  steps: '',
  fromFrame: '',
  toFrame: '',
  distance: '2 m',
  distanceTo: '1 cm',
  across: '',
  angle: '60°',
  angleTo: '1°',
  wide: '2.5 m',
  wideTo: '1 cm',
}

type FieldShown = { name: CheckField; label: string; unit?: string; choices?: string[] }
export type Guide = {
  way: GuideWay
  word: string
  /** What to do, in three lines. */
  lines: [string, string, string]
  fields: FieldShown[]
}

const mains: FieldShown = { name: 'mains', label: 'Mains', choices: ['50 Hz', '60 Hz'] }
const ball: FieldShown = { name: 'ball', label: 'Ball' }
const distance: FieldShown = { name: 'distance', label: 'Lens to it' }
const distanceTo: FieldShown = { name: 'distanceTo', label: 'Known to' }

/** The ways to each figure, the surest first. */
export const guides: Record<Checked, { title: string; ways: Guide[] }> = {
  rate: {
    title: 'The true capture rate',
    ways: [
      {
        way: 'turntable',
        word: 'A turntable',
        lines: [
          'Lay something on it that looks different all the way round: a record, a paper with one blot.',
          'Put the camera on a stand and film in the mode that you measure in, a slant does no harm.',
          'Film five turns, ten seconds at 33 1/3 rpm; two turns at the very least.',
        ],
        fields: [
          { name: 'rpm', label: 'It turns at', unit: 'rpm', choices: ['33 1/3', '45', '78.26'] },
          { name: 'knownTo', label: 'Known to' },
        ],
      },
      {
        way: 'lamp',
        word: 'A lamp on the mains',
        lines: [
          'Choose a lamp that flickers, an old tube or a filament bulb; many new ones do not.',
          'Use the shortest exposure, so that the picture grows bright and dark.',
          'Film the lit wall for two seconds; look at the wall, not into the lamp.',
        ],
        fields: [mains],
      },
      {
        way: 'counter',
        word: 'A clock or counter',
        lines: [
          'Show a stopwatch or a counter whose digits jump, large in the picture.',
          'Film it for ten seconds or longer.',
          'Choose the first frame that shows a new count, once early and once late.',
        ],
        fields: [
          { name: 'step', label: 'One step takes' },
          { name: 'fromFrame', label: 'Early frame' },
          { name: 'toFrame', label: 'Late frame' },
          { name: 'steps', label: 'Steps between them' },
        ],
      },
      {
        way: 'drop',
        word: 'A dropped ball',
        lines: [
          'Hold a ball at the top of the picture, against a plain wall, and let it go without a spin.',
          'Stand two metres or more away, square to its fall; the camera on a stand, upright.',
          'Film the whole fall, a metre or more. This is the coarsest way: about 1 %.',
        ],
        fields: [ball, { name: 'mass', label: 'It weighs' }],
      },
    ],
  },
  readout: {
    title: 'The readout, first row to last',
    ways: [
      {
        way: 'spin',
        word: 'Something that spins',
        lines: [
          'Stick a paper with a few bold sectors on a fan or a drill; keep fingers and hair away.',
          'Film it face on, large in the picture, with a short exposure.',
          'Film two seconds at an even speed.',
        ],
        fields: [],
      },
      {
        way: 'bands',
        word: 'A lamp’s bands',
        lines: [
          'Light a plain wall with a lamp that flickers with the mains, no other light.',
          'Use the shortest exposure: bright and dark bands lie across the picture.',
          'Film the wall for two seconds, the camera on a stand.',
        ],
        fields: [mains],
      },
      {
        way: 'edge',
        word: 'An upright edge moved sideways',
        lines: [
          'Hold a dark board with a straight, upright edge before a light wall.',
          'Move it sideways across the whole picture, quickly, to and fro several times.',
          'The faster it goes, the more its edge leans in the picture, and the surer the figure.',
        ],
        fields: [],
      },
    ],
  },
  focal: {
    title: 'The focal length',
    ways: [
      {
        way: 'ball',
        word: 'A ball at a known distance',
        lines: [
          'Lay a ball in the middle of the picture, two metres or more from the lens.',
          'Measure from the lens to the ball’s middle, to a centimetre.',
          'Click three places on its rim in the picture, well apart.',
        ],
        fields: [ball, distance, distanceTo, { name: 'across', label: 'Ball in the picture', unit: 'px' }],
      },
      {
        way: 'width',
        word: 'What the picture spans',
        lines: [
          'Lay a tape measure across the picture, square to the line of sight.',
          'Read how much of it the picture shows, edge to edge.',
          'Measure from the lens to the tape.',
        ],
        fields: [
          { name: 'wide', label: 'Picture spans' },
          { name: 'wideTo', label: 'Known to' },
          distance,
          { name: 'distanceTo', label: 'Distance known to' },
        ],
      },
      {
        way: 'view',
        word: 'A known field of view',
        lines: [
          'Look it up for the camera and the very mode: slow motion is often cropped.',
          'Take the angle across the picture, not the diagonal.',
          'Switch stabilisation off: it crops the picture further.',
        ],
        fields: [
          { name: 'angle', label: 'Across the picture' },
          { name: 'angleTo', label: 'Known to' },
        ],
      },
    ],
  },
}
