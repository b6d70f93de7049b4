import { problemSchema, WhorlError } from '../../core/contract/problem.ts'
import { HostProblem } from './host.ts'

/** A request that answered well; a refused one, or a host that is gone, rejects with words to show. */
export async function answered(url: string, init: RequestInit): Promise<Response> {
  const answer = await fetch(url, init).catch(thrown => {
    if (init.signal?.aborted) throw thrown
    throw new HostProblem(new WhorlError('host-gone', {}).toProblem())
  })
  if (answer.ok) return answer
  const said = problemSchema.safeParse(await answer.json().catch(() => null))
  throw new HostProblem(
    said.success
      ? said.data
      : new WhorlError('internal', { what: `the host answered ${answer.status} to ${url}` }).toProblem(),
  )
}
