import { describe, expect, it } from 'vitest'
import { problemSchema } from '../../../core/contract/problem.ts'
import { commands } from '../../../electron/cli/commands.ts'
import { durationSeconds, lengthMetres, portNumber, positiveNumber } from '../../../electron/cli/values.ts'
import { said } from './stand-in-world.ts'

describe('words that the command line does not understand', () => {
  it.each([
    ['an unknown command', ['measure']],
    ['a name that every object has', ['constructor']],
    ['an unknown option', ['fit', 'a.json', '--fast']],
    ['an unknown short option', ['fit', '-x']],
    ['an option without its value', ['inspect', 'a.mp4', '--capture-fps']],
    ['an option that takes no value', ['fit', 'a.json', '--json=yes']],
    ['a rate that is no number', ['inspect', 'a.mp4', '--capture-fps', 'fast']],
    ['a rate of 0', ['inspect', 'a.mp4', '--capture-fps', '0']],
    ['a negative rate', ['inspect', 'a.mp4', '--capture-fps=-240']],
    ['an infinite rate', ['inspect', 'a.mp4', '--capture-fps', '1e999']],
    ['no input', ['fit']],
    ['a word too many', ['serve', 'a.mp4']],
    ['a port that is none', ['serve', '--port', '65536']],
    ['an export without a target', ['export']],
  ])('ends with 2 for %s, one line, and the way out', async (_, words) => {
    const { code, out, err } = await said(words)
    expect(code).toBe(2)
    expect(out).toBe('')
    expect(err).toMatch(/^whorl: [^\n]+\.\n$/)
  })

  it('says the same as a document with --json', async () => {
    const { code, out, err } = await said(['fit', '--json', '--fast'])
    expect(code).toBe(2)
    expect(problemSchema.parse(JSON.parse(out)).code).toBe('usage')
    expect(err.trim().split('\n')).toHaveLength(1)
  })

  it('names the commands that there are', async () => {
    const { err } = await said(['measure'])
    for (const name of Object.keys(commands)) expect(err).toContain(name)
  })
})

describe('help', () => {
  it.each([[], ['--help'], ['-h'], ['help']])('lists every command (%s)', async (...words) => {
    const { code, out } = await said(words.filter(word => typeof word === 'string'))
    expect(code).toBe(0)
    for (const [name, { says }] of Object.entries(commands))
      expect(out).toMatch(new RegExp(`^  ${name} +${says}$`, 'm'))
  })

  it.each(Object.keys(commands))('whorl %s --help shows each option and one example', async name => {
    const { default: command } = await commands[name]!.load()
    const { code, out, err } = await said([name, '--help'])
    expect([code, err]).toEqual([0, ''])
    for (const option of Object.keys(command.options)) expect(out).toContain(`--${option}`)
    expect(out.match(/Example/g)).toHaveLength(1)
    expect(out).toContain(`whorl ${name}`)
  })

  it('is a file name after --', async () => {
    const { code, err } = await said(['fit', '--', '--help'])
    expect(code).toBe(1)
    expect(err).toContain('--help')
  })
})

describe('values', () => {
  it.each([
    ['1/2000', 0.0005],
    ['0.5ms', 0.0005],
    ['0.0005', 0.0005],
    ['500us', 0.0005],
    ['1/2000s', 0.0005],
  ])('T takes %s', (text, seconds) => {
    expect(durationSeconds(text, '--exposure')).toBeCloseTo(seconds, 12)
  })

  // 2.9 in = 73.66 mm: 1 in = 25.4 mm exactly (international yard and pound agreement, 1959)
  it.each([
    ['74mm', 0.074],
    ['2.9in', 0.07366],
    ['0.074', 0.074],
    ['7.4cm', 0.074],
  ])('L takes %s', (text, metres) => {
    expect(lengthMetres(text, '--ball-diameter')).toBeCloseTo(metres, 12)
  })

  it.each(['', '0', '-1', '1/0', '0/1', '1/', 'ms', '5 minutes', 'NaN', 'Infinity', '0x10', '1e400'])(
    'a time or length of “%s” is refused',
    text => {
      expect(() => durationSeconds(text, '--exposure')).toThrow(expect.objectContaining({ code: 'usage' }))
      expect(() => lengthMetres(text, '--ball')).toThrow(expect.objectContaining({ code: 'usage' }))
      expect(() => positiveNumber(text, '--capture-fps')).toThrow(expect.objectContaining({ code: 'usage' }))
    },
  )

  it.each(['-1', '1.5', '70000', 'http', ''])('the port “%s” is refused', text => {
    expect(() => portNumber(text, '--port')).toThrow(expect.objectContaining({ code: 'usage' }))
  })
})
