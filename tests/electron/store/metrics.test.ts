import { describe, expect, it } from 'vitest'
import { metricsFor } from '../../../core/ratings/metrics-for.ts'
import { temporaryWorkspace, thrownBy, withOneHit } from './temporary.ts'

const swing = (value: number | string) => ({ name: 'Swing weight', unit: 'kg·cm²', value })

describe('values measured elsewhere', () => {
  it('make the paddles and set-ups that are new, and stay as they are the second time', () => {
    const { workspace, reopen } = temporaryWorkspace()
    const rows = [
      { paddle: 'Heron 14', setUp: null, values: [swing(115.5), { name: 'Shape', unit: '', value: 'long' }] },
      { paddle: 'Heron 14', setUp: 'weighted', values: [swing(121)] },
    ]
    expect(workspace.importMetrics(rows, 'mine.csv').changed).toHaveLength(3)
    expect(workspace.importMetrics(rows, 'again.csv')).toEqual({ paddles: [], setUps: [], changed: [] })
    const again = reopen()
    const [heron] = again.paddles()
    expect(heron!.setUps.map(one => one.name)).toEqual(['stock', 'weighted'])
    const of = (place: number) => metricsFor(again.metrics(), heron!.id, heron!.setUps[place]!.id)
    expect(of(0).map(one => one.value)).toEqual(['long', 115.5])
    expect(of(1).map(one => one.value)).toEqual(['long', 121])
    expect(of(1)[1]).toMatchObject({ unit: 'kg·cm²', source: 'mine.csv' })
  })

  it('are all of them in or none', () => {
    const { workspace } = temporaryWorkspace()
    workspace.createPaddle({ name: 'Heron', notes: '' })
    const rows = ['Kite', 'heron'].map(paddle => ({ paddle, setUp: null, values: [swing(1)] }))
    expect(thrownBy(() => workspace.importMetrics(rows, 'x'))).toMatchObject({ code: 'name-taken' })
    expect(workspace.metrics()).toEqual([])
    expect(workspace.paddles()).toHaveLength(1)
  })

  it('are taken back to what was there before, but not what got a hit meanwhile', () => {
    const { workspace } = temporaryWorkspace()
    workspace.importMetrics([{ paddle: 'Heron', setUp: null, values: [swing(110)] }], 'old.csv')
    const before = workspace.metrics()
    const rows = ['Heron', 'Kite', 'Tern'].map(paddle => ({ paddle, setUp: null, values: [swing(120)] }))
    const back = workspace.importMetrics(rows, 'new.csv')
    const tern = workspace.paddles().find(one => one.name === 'Tern')!
    workspace.assignHit(withOneHit(workspace).hitId, tern.setUps[0]!.id)
    workspace.undoImport(back)
    expect(workspace.metrics()).toEqual(before)
    expect(workspace.paddles().map(one => one.name)).toEqual(['Heron', 'Tern'])
  })

  it('are not taken back over a later import', () => {
    const { workspace } = temporaryWorkspace()
    const row = (value: number) => [{ paddle: 'Heron', setUp: null, values: [swing(value)] }]
    const back = workspace.importMetrics(row(110), 'old.csv')
    workspace.importMetrics(row(120), 'new.csv')
    expect(thrownBy(() => workspace.undoImport(back))).toMatchObject({ code: 'undo-refused' })
    expect(workspace.metrics()).toMatchObject([{ value: 120 }])
  })
})
