import { cleanup, render, screen } from '@testing-library/react'
import { afterEach, describe, expect, it } from 'vitest'
import { flagSchema } from '../../../core/contract/reading.ts'
import { FlagMark } from '../../../renderer/components/flag-mark.tsx'
import { HitsPicture } from '../../../renderer/components/hits-picture.tsx'
import { linesOf, percentOn, rpmScaleOf } from '../../../renderer/components/rpm-scale.ts'

afterEach(cleanup)

describe('a flag', () => {
  it('has its own shape and its own word, whether the word is seen or only heard', () => {
    const shapes = flagSchema.options.map(flag => {
      const { container, unmount } = render(<FlagMark flag={flag} bare />)
      const said = `${container.querySelector('svg')!.innerHTML} ${container.textContent}`
      unmount()
      return said
    })
    expect(new Set(shapes.map(said => said.split(' ').slice(0, -1).join(' '))).size).toBe(4)
    render(<FlagMark flag="near-ceiling" bare />)
    expect(screen.getByText('near ceiling')).toBeTruthy()
  })
})

describe('the picture of hits', () => {
  const pegs = (piece: React.ReactElement) => {
    const { container } = render(piece)
    return [...container.querySelectorAll('rect')].map(
      peg => peg.getAttribute('class') ?? peg.getAttribute('height'),
    )
  }
  it('shows one peg a hit: full, half, hollow', () => {
    expect(pegs(<HitsPicture hits={4} accepted={2} heldBack={1} />)).toEqual([
      '12',
      '12',
      '6',
      'hits-picture-open',
    ])
  })
  it('closes up into one bar of the right lengths when there are too many', () => {
    const { container } = render(<HitsPicture hits={1000} accepted={250} heldBack={500} widthPx={200} />)
    expect([...container.querySelectorAll('rect')].map(peg => peg.getAttribute('width'))).toEqual([
      '50',
      '100',
    ])
  })
  it('says itself in words', () => {
    render(<HitsPicture hits={5} accepted={3} heldBack={1} />)
    expect(screen.getByRole('img').getAttribute('aria-label')).toBe('3 of 5\u00a0hits accepted, 1 held back')
  })
})

describe('the rpm scale', () => {
  it('holds every band between whole steps', () => {
    const scale = rpmScaleOf([
      { lowRpm: 1622, highRpm: 1700 },
      { lowRpm: 2400, highRpm: 2431 },
    ])
    expect(scale).toEqual({ fromRpm: 1500, toRpm: 2500, stepRpm: 250 })
    expect(linesOf(scale)).toEqual([1500, 1750, 2000, 2250, 2500])
    expect(percentOn(scale, 2000)).toBe(50)
    expect([percentOn(scale, 0), percentOn(scale, 9999)]).toEqual([0, 100])
  })
  it('has a length even for a single rate, and for none', () => {
    const one = rpmScaleOf([{ lowRpm: 2000, highRpm: 2000 }])
    expect(one.toRpm).toBeGreaterThan(one.fromRpm)
    expect(rpmScaleOf([])).toEqual({ fromRpm: 0, toRpm: 3000, stepRpm: 500 })
  })
  it('never goes below zero', () => {
    expect(rpmScaleOf([{ lowRpm: -40, highRpm: 300 }]).fromRpm).toBe(0)
  })
})
