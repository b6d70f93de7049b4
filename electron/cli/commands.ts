import type { Command } from './command.ts'

type Entry = { says: string; load: () => Promise<{ default: Command }> }

/** Every command of the command line. A new one is a file in commands/ and a line here. */
export const commands: Record<string, Entry> = {
  plan: {
    says: 'what a camera can do with a hit before it is filmed, and what helps most',
    load: () => import('./commands/plan.ts'),
  },
  'check-rate': {
    says: 'the rate at which a camera really filmed, from something of known speed',
    load: () => import('./commands/check-rate.ts'),
  },
  'check-readout': {
    says: 'how long a camera’s sensor takes from its first row to its last',
    load: () => import('./commands/check-readout.ts'),
  },
  'check-focal': {
    says: 'a camera’s focal length, from a ball at a known distance or a field of view',
    load: () => import('./commands/check-focal.ts'),
  },
  cameras: {
    says: 'the cameras that were checked, each with its true rate, readout and focal length',
    load: () => import('./commands/cameras.ts'),
  },
  inspect: {
    says: 'what a clip is: frames, times, rates, warnings',
    load: () => import('./commands/inspect.ts'),
  },
  read: {
    says: 'the spin of every flight in a clip, found and read by itself',
    load: () => import('./commands/read.ts'),
  },
  work: {
    says: 'read clips that wait on a server, on this machine beside others',
    load: () => import('./commands/work.ts'),
  },
  queue: {
    says: 'how far the clips on a server are, and what was read',
    load: () => import('./commands/queue.ts'),
  },
  fit: { says: 'the spin from a file of marks, with band and flag', load: () => import('./commands/fit.ts') },
  study: {
    says: 'a person’s own click error, and how people differ, from marks made again',
    load: () => import('./commands/study.ts'),
  },
  export: {
    says: 'write the accepted figures into a ratings database',
    load: () => import('./commands/export.ts'),
  },
  import: {
    says: 'bring a table of yours into the workspace, every column of it',
    load: () => import('./commands/import.ts'),
  },
  bundle: {
    says: 'pack the evidence behind a paddle’s or a session’s figures into one file',
    load: () => import('./commands/bundle.ts'),
  },
  verify: {
    says: 'make the figures of an evidence bundle anew and say whether they are the same',
    load: () => import('./commands/verify.ts'),
  },
  paddles: {
    says: 'the paddles by their spin: band, rank, percentile, tier',
    load: () => import('./commands/paddles.ts'),
  },
  compare: {
    says: 'which of two or more paddles spins more, and how surely',
    load: () => import('./commands/compare.ts'),
  },
  report: {
    says: 'a report on a paddle, a session or a comparison as HTML or PDF',
    load: () => import('./commands/report.ts'),
  },
  clip: {
    says: 'a hit as a slowed clip with its marks drawn in, as MP4 or GIF',
    load: () => import('./commands/clip.ts'),
  },
  picture: {
    says: 'draw a hit, a paddle or all of them as SVG or PNG',
    load: () => import('./commands/picture.ts'),
  },
  restore: {
    says: 'go back to a backup of the workspace',
    load: () => import('./commands/restore.ts'),
  },
  demo: {
    says: 'make a demo workspace, read its hits, open the app on it',
    load: () => import('./commands/demo.ts'),
  },
  serve: { says: 'the app in a browser on this machine', load: () => import('./commands/serve.ts') },
  open: {
    says: 'the app on your own workspace',
    load: () => import('./commands/open.ts'),
  },
}
