import { readFileSync } from 'node:fs'
import { join } from 'node:path'
import { z } from 'zod'
import { type Marks, marksSchema } from '../../core/contract/marks.ts'
import { sessionDetailsSchema } from '../../core/contract/workspace.ts'

const name = z.string().min(1)
const demoSchema = z.object({
  schema: z.literal('whorl.demo/1'),
  paddles: z.array(
    z.object({
      name,
      notes: z.string(),
      setUps: z.array(z.object({ name, notes: z.string() })),
    }),
  ),
  sessions: z.array(
    z.object({
      details: sessionDetailsSchema,
      clips: z.array(z.object({ clip: name, paddle: name, setUp: name })),
    }),
  ),
})
/** `sample-clips/demo.json`: who filmed what, and whose hit each sample clip shows. */
export type Demo = z.infer<typeof demoSchema>

const jsonIn = (folder: string, file: string): unknown => JSON.parse(readFileSync(join(folder, file), 'utf8'))

export const demoIn = (folder: string): Demo => demoSchema.parse(jsonIn(folder, 'demo.json'))

/** What a person clicked on a sample clip. */
export const clicksOf = (folder: string, clip: string): Marks =>
  marksSchema.parse(jsonIn(folder, clip.replace(/\.\w+$/, '.clicks.json')))
