import { readdirSync, readFileSync, writeFileSync } from 'node:fs'
import { join } from 'node:path'
import { expect, it } from 'vitest'
import { problemSchema } from '../../core/contract/problem.ts'
import { readingDocumentSchema } from '../../core/contract/reading.ts'
import { seededRandom } from '../../core/numerics/seeded-random.ts'
import { places } from '../../electron/service/places.ts'
import { said } from '../electron/cli/stand-in-world.ts'
import { spoiledJson } from './hostile/spoil-json.ts'
import { ownFolder } from './open-host.ts'

const clicks = readdirSync(places.samples)
  .filter(name => /^(fast-240-a|contact-240|rolling-240|aliased-60)\.clicks\.json$/.test(name))
  .map(name => JSON.parse(readFileSync(join(places.samples, name), 'utf8')) as unknown)

it.each(Array.from({ length: 8 }, (_, i) => 1000 * i))(
  'documents of marks that were spoiled (seeds from %i) are read or refused by name, in time',
  async first => {
    const file = join(ownFolder(), 'marks.json')
    for (let seed = first; seed < first + 15; seed++) {
      const text = JSON.stringify(spoiledJson(clicks[seed % clicks.length], seededRandom(seed)))
      writeFileSync(file, text)
      const { code, out } = await said(['fit', file, '--json'])
      const about = `seed ${seed}: ${out.slice(0, 300)}`
      const document = JSON.parse(out) as unknown
      if (code === 0) expect(readingDocumentSchema.safeParse(document).success, about).toBe(true)
      else expect(problemSchema.parse(document).code, about).toMatch(/^(marks-invalid|marks-not-json)$/)
    }
    expect(({} as { polluted?: boolean }).polluted).toBeUndefined()
  },
)
