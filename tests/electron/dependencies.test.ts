import { existsSync, readFileSync } from 'node:fs'
import { join } from 'node:path'
import { expect, it } from 'vitest'

const checkout = join(import.meta.dirname, '../..')
const read = (path: string) => readFileSync(join(checkout, path), 'utf8')
const { dependencies, optionalDependencies } = JSON.parse(read('package.json')) as Record<
  'dependencies' | 'optionalDependencies',
  Record<string, string>
>
/** What an installed program holds; Electron is the window itself, though npm need not bring it. */
const shipped = [...Object.keys({ ...dependencies, ...optionalDependencies }), 'electron']

/** The README's table: packages, why, licence. */
const [, , ...rows] = read('README.md')
  .split('## What it is built on')[1]!
  .split('\n')
  .filter(line => line.startsWith('|'))
  .map(line => line.slice(2, -2).split(' | '))
const licenceOf = new Map(
  rows.flatMap(([names, , licence]) =>
    names!.split(', ').map((name): [string, string] => [name.replace(' (optional)', ''), licence!]),
  ),
)

it('names every package that is shipped, and no other', () => {
  expect([...licenceOf.keys()].sort()).toEqual(shipped.toSorted())
})

it('says of each why it is there', () => {
  for (const [names, why] of rows) expect(why?.length, names).toBeGreaterThan(5)
})

it.each(shipped)('says the licence that %s has', name => {
  const own = join('node_modules', name, 'package.json')
  if (!existsSync(join(checkout, own))) {
    // Its download fails where there is no open internet, and npm leaves an optional package out then.
    expect(optionalDependencies).toHaveProperty(name)
    console.log(`${name} is not installed here: its licence was NOT compared.`)
    return
  }
  expect(licenceOf.get(name)).toBe(JSON.parse(read(own)).license)
})

it('links no GPL code: what has it is run as a program of its own', () => {
  const gpl = [...licenceOf].filter(([, licence]) => /\bL?GPL/.test(licence)).map(([name]) => name)
  expect(gpl.sort()).toEqual(['@ffmpeg-installer/ffmpeg', '@ffprobe-installer/ffprobe', 'ffmpeg-static'])
})
