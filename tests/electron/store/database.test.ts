import { join } from 'node:path'
import { describe, expect, it, onTestFinished } from 'vitest'
import { Database } from '../../../electron/store/database.ts'
import { temporaryFolder } from './temporary.ts'

function open(path = join(temporaryFolder(), 'a.sqlite')) {
  const db = new Database(path, {
    readOnly: false,
    onTrouble: trouble => new Error(`trouble: ${trouble}`),
  })
  onTestFinished(() => db.close())
  return db
}
function withTable() {
  const db = open()
  db.exec('CREATE TABLE t (a, b)')
  return db
}
const insert = 'INSERT INTO t (a, b) VALUES ($a, $b)'

describe('a statement', () => {
  it('writes and reads numbers, text, bytes and null', () => {
    const db = withTable()
    db.run(insert, { a: 1.5, b: 'é “x”' })
    db.run(insert, { a: null, b: new Uint8Array([0, 255]) })
    const [first, second] = db.all<{ a: unknown; b: unknown }>('SELECT a, b FROM t')
    expect({ ...first }).toEqual({ a: 1.5, b: 'é “x”' })
    expect([second!.a, [...(second!.b as Uint8Array)]]).toEqual([null, [0, 255]])
  })

  it.each([
    ['a forgotten parameter', { a: 1 }, /No \$b/],
    ['an undefined one', { a: 1, b: undefined }, /\$b cannot be stored/],
    ['a parameter too many', { a: 1, b: 2, c: 3 }, /\$c too many/],
    ['a date', { a: 1, b: new Date(0) }, /\$b cannot be stored/],
    ['an object', { a: 1, b: {} }, /\$b cannot be stored/],
    ['a truth value', { a: 1, b: true }, /\$b cannot be stored/],
    ['text with a NUL', { a: 1, b: 'x\0y' }, /\$b cannot be stored/],
    ['no bytes', { a: 1, b: new Uint8Array() }, /\$b cannot be stored/],
    ['NaN', { a: 1, b: Number.NaN }, /\$b cannot be stored/],
    ['infinity', { a: 1, b: Number.POSITIVE_INFINITY }, /\$b cannot be stored/],
  ])('refuses %s, where the driver would store NULL or fail without a name', (_case, values, said) => {
    const db = withTable()
    expect(() => db.run(insert, values as never)).toThrow(said)
    expect(db.all('SELECT * FROM t')).toEqual([])
  })
})

describe('a transaction', () => {
  it('that throws leaves nothing, and the next one works', () => {
    const db = withTable()
    expect(() =>
      db.transaction(() => {
        db.run(insert, { a: 1, b: 1 })
        throw new Error('no')
      }),
    ).toThrow('no')
    expect(db.all('SELECT * FROM t')).toEqual([])
    db.transaction(() => db.run(insert, { a: 2, b: 2 }))
    expect(db.all('SELECT * FROM t')).toHaveLength(1)
  })

  it('inside another one is refused', () => {
    const db = withTable()
    expect(() => db.transaction(() => db.transaction(() => 1))).toThrow(/inside another/)
    expect(db.transaction(() => 1)).toBe(1)
  })

  it('takes the write lock at its beginning, so that a second writer is told at once', () => {
    const path = join(temporaryFolder(), 'a.sqlite')
    const [one, two] = [open(path), open(path)]
    one.exec('CREATE TABLE t (a, b)')
    one.transaction(() => {
      expect(() => two.transaction(() => 'never')).toThrow('trouble: locked')
    })
    expect(two.transaction(() => 'now')).toBe('now')
  })
})
