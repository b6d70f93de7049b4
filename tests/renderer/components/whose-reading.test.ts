import { expect, it } from 'vitest'
import { standingOf } from '../../../renderer/components/whose-reading.ts'

it('tells a reading that nobody has looked at from one that is merely open', () => {
  const open = { state: 'open', reason: '' } as const
  expect(standingOf({ verdict: open, provenance: 'untouched' })).toBe('untouched')
  expect(standingOf({ verdict: open, provenance: 'clicked' })).toBe('open')
  expect(standingOf({ verdict: open, provenance: null })).toBe('open')
  expect(standingOf({ verdict: { state: 'held-back', reason: 'net' }, provenance: 'untouched' })).toBe(
    'held back',
  )
})
