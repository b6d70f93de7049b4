import type { Effect } from '../../core/contract/clip.ts'

/** What each finding on a clip does to a reading, and what to do about it. */
export const effects = {
  retimed: { effect: 'correct', todo: 'Nothing, if the camera was set so.' },
  'capture-rate-unknown': {
    effect: 'refuse',
    todo: 'Say the camera’s setting, or check it with a clip of something of known speed.',
  },
  ramp: {
    effect: 'refuse',
    todo: 'Use hits that lie within one stretch, and say the capture rate for it; better, send the clip without the ramp.',
  },
  'dropped-frames': { effect: 'correct', todo: 'Nothing; a hit across the gap has fewer marks.' },
  'repeated-frames': { effect: 'correct', todo: 'Mark only one of two pictures that are the same.' },
  'mostly-repeated': {
    effect: 'refuse',
    todo: 'Get the file that the camera wrote; this one’s rate is made up.',
  },
  'mixed-frames': {
    effect: 'refuse',
    todo: 'Get the file that the camera wrote, without a change of frame rate.',
  },
  'uneven-timestamps': { effect: 'correct', todo: 'Check that the camera wrote this file itself.' },
  'rounded-timestamps': { effect: 'correct', todo: 'Nothing.' },
  'uneven-rounded-timestamps': {
    effect: 'widen',
    todo: 'Mark more frames: each time is less sure by the rounding.',
  },
  'edit-list': { effect: 'none', todo: 'Nothing; frames are counted from the first that is shown.' },
  rotated: { effect: 'none', todo: 'Nothing.' },
  'non-square-pixels': {
    effect: 'correct',
    todo: 'Nothing; filming with square pixels keeps the picture sharper.',
  },
  interlaced: { effect: 'refuse', todo: 'Film progressive: every picture here holds two instants.' },
  flicker: {
    effect: 'none',
    todo: 'Use daylight or lamps without flicker; the automatic reading finds less where the light changes.',
  },
  'strong-compression': {
    effect: 'widen',
    todo: 'Raise the bit rate, or get the file before it was sent through a messenger.',
  },
  'moving-view': {
    effect: 'widen',
    todo: 'Put the camera on a stand and switch stabilisation off; place the outline in more frames, and do not trust speed.',
  },
  truncated: { effect: 'none', todo: 'Copy the clip again if the hit is missing.' },
  'damaged-frames': { effect: 'none', todo: 'Copy the clip again; leave damaged frames out.' },
} as const satisfies Record<string, { effect: Effect; todo: string }>

export type FindingCode = keyof typeof effects
