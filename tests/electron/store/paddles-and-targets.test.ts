import { describe, expect, it } from 'vitest'
import { temporaryWorkspace, thrownBy } from './temporary.ts'

describe('a paddle', () => {
  it('is made with the set-up "stock" and takes more, in the order of their making', () => {
    const { workspace, reopen } = temporaryWorkspace()
    const heron = workspace.createPaddle({ name: 'Heron 14', notes: 'raw carbon' })
    expect(heron.setUps.map(setUp => setUp.name)).toEqual(['stock'])
    workspace.addSetUp(heron.id, { name: 'weighted, 3 and 9 o’clock', notes: '2 × 3 g' })
    workspace.addSetUp(heron.id, { name: 'overgrip', notes: '' })
    workspace.createPaddle({ name: 'Avocet 16', notes: '' })
    const paddles = reopen().paddles()
    expect(paddles.map(paddle => paddle.name)).toEqual(['Avocet 16', 'Heron 14'])
    expect(paddles[1]?.setUps.map(setUp => setUp.name)).toEqual([
      'stock',
      'weighted, 3 and 9 o’clock',
      'overgrip',
    ])
  })

  it('with a name that is there already is refused, whatever its capitals', () => {
    const { workspace } = temporaryWorkspace()
    const heron = workspace.createPaddle({ name: 'Heron 14', notes: '' })
    expect(thrownBy(() => workspace.createPaddle({ name: 'HERON 14', notes: '' }))).toMatchObject({
      code: 'name-taken',
      facts: { what: 'paddle', name: 'HERON 14' },
    })
    expect(thrownBy(() => workspace.addSetUp(heron.id, { name: 'Stock', notes: '' }))).toMatchObject({
      code: 'name-taken',
      facts: { what: 'set-up', name: 'Stock' },
    })
    expect(workspace.paddles()).toEqual([heron])
  })

  it('that is not there takes no set-up', () => {
    const { workspace } = temporaryWorkspace()
    expect(thrownBy(() => workspace.addSetUp('nobody', { name: 'x', notes: '' }))).toMatchObject({
      code: 'not-in-workspace',
      facts: { what: 'paddle', id: 'nobody' },
    })
  })

  it('keeps hostile names as they are', () => {
    const { workspace, reopen } = temporaryWorkspace()
    const name = `Robert'); DROP TABLE paddle; -- "\n🎾 $name`
    workspace.createPaddle({ name, notes: name })
    expect(reopen().paddles()[0]).toMatchObject({ name, notes: name })
  })
})

describe('export targets', () => {
  it('are remembered latest first, each once, the last eight', () => {
    const { workspace, reopen } = temporaryWorkspace()
    for (let i = 0; i < 10; i++) workspace.rememberTarget(`/r${i}.sqlite`)
    workspace.rememberTarget('/r5.sqlite')
    expect(reopen().recentTargets()).toEqual([5, 9, 8, 7, 6, 4, 3, 2].map(i => `/r${i}.sqlite`))
  })
})
