import { readFileSync } from 'node:fs'
import { type Marks, marksSchema } from '../../core/contract/marks.ts'
import { WhorlError } from '../../core/contract/problem.ts'

/** The text of a marks file; `file-not-found` or `file-unreadable` where there is none to be had. */
export function textOfFile(path: string): string {
  try {
    return readFileSync(path, 'utf8')
  } catch (error) {
    const { code, message } = error as NodeJS.ErrnoException
    if (code === 'ENOENT') throw new WhorlError('file-not-found', { path })
    if (code === 'EISDIR') throw new WhorlError('file-is-folder', { path })
    throw new WhorlError('file-unreadable', { path, what: message.split(',')[0]! })
  }
}

/**
 * `whorl.marks/1` from its text. What is no such document is refused here, with the place of the fault;
 * what a sound document cannot be measured from is a reading with its reason.
 *
 * @throws `marks-not-json`, `marks-invalid`
 */
export function marksOf(text: string, path: string): Marks {
  const result = marksSchema.safeParse(jsonOf(text, path))
  if (!result.success) {
    const issue = result.error.issues[0]!
    throw new WhorlError('marks-invalid', { path, where: placeOf(issue.path), what: issue.message })
  }
  const fault = faultOf(result.data)
  if (fault) throw new WhorlError('marks-invalid', { path, ...fault })
  return result.data
}

function jsonOf(text: string, path: string): unknown {
  const trimmed = text.replace(/^\uFEFF/, '')
  if (trimmed.trim() === '') throw new WhorlError('marks-not-json', { path, what: 'it is empty' })
  try {
    return JSON.parse(trimmed)
  } catch (error) {
    const bare = /(?<=[[:,]\s*)-?(NaN|Infinity)\b/.exec(trimmed.replace(/"(?:[^"\\]|\\.)*"/g, '""'))?.[1]
    const what = bare ? `${bare} is no JSON number` : (error as Error).message.split('\n')[0]!
    throw new WhorlError('marks-not-json', { path, what: what.slice(0, 200) })
  }
}

const placeOf = (path: PropertyKey[]): string =>
  path.length === 0 ? 'the document' : path.map(String).join('.')

/** What the parts of a document say of each other: names that lead nowhere, things that are there twice. */
function faultOf({ marks, frames }: Marks): { where: string; what: string } | null {
  const ids = marks.map(mark => mark.id)
  const twin = ids.findIndex((id, i) => ids.indexOf(id) !== i)
  if (twin !== -1) return { where: `marks.${twin}.id`, what: `“${ids[twin]}” is there twice` }
  const indexes = frames.map(frame => frame.index)
  const again = indexes.findIndex((index, i) => indexes.indexOf(index) !== i)
  if (again !== -1) return { where: `frames.${again}.index`, what: `frame ${indexes[again]} is there twice` }
  for (const [i, frame] of frames.entries()) {
    const named = [...frame.seen.map(sighting => sighting.mark), ...(frame.hidden ?? [])]
    const stranger = named.find(id => !ids.includes(id))
    if (stranger !== undefined)
      return { where: `frames.${i}`, what: `“${stranger}” is not among the marks (${ids.join(', ')})` }
  }
  return null
}
