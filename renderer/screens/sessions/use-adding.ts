import { useHost } from '../../host/host.ts'
import { type Act, useAct } from '../../state/answers.ts'

/** What is to be added: files dropped on the page, or paths on the host's disk. */
export type Source = { files: File[] } | { paths: string[] }
export type Adding = { act: Act; add: (sessionId: string, source: Source) => Promise<boolean> }

/** Adds clips to a session, dropped files first brought to a path. */
export function useAdding(): Adding {
  const host = useHost()
  const act = useAct()
  const add: Adding['add'] = (sessionId, source) =>
    act.run(async options => {
      const paths = 'paths' in source ? source.paths : []
      if ('files' in source) {
        for (const [index, file] of source.files.entries()) {
          options.onProgress?.({ what: `Copying ${file.name}`, done: index, total: source.files.length })
          paths.push(await host.pathOf(file, { ...(options.signal ? { signal: options.signal } : {}) }))
        }
      }
      await host.call('clips.add', { sessionId, paths }, options)
    })
  return { act, add }
}
