import type { Service } from '../../core/contract/calls.ts'
import { methodVersion } from '../../core/spin/method-version.ts'
import { backupCalls } from './backups.ts'
import { bundleCalls } from './bundle.ts'
import { cameraCalls } from './cameras.ts'
import { checkCalls } from './checks.ts'
import { clipCalls } from './clips.ts'
import { demoCalls } from './demo.ts'
import { exportCalls } from './export.ts'
import { fileCalls } from './files.ts'
import { hitCalls } from './hits.ts'
import { importCalls } from './import.ts'
import type { KnownServers } from './known-servers.ts'
import { paddleCalls } from './paddles.ts'
import type { Parts } from './parts.ts'
import { publishCalls } from './publish.ts'
import { ratingCalls } from './ratings.ts'
import { readingCalls } from './reading.ts'
import { sessionCalls } from './sessions.ts'
import { sharedQueueCalls } from './shared-queue.ts'
import { stepCalls } from './step-calls.ts'
import { studyCalls } from './study.ts'
import { testDayCalls } from './test-days.ts'

/** The whole table of calls, one family a file; the compiler sees to it that none is missing. */
export const createService = (parts: Parts, servers: KnownServers): Service => {
  const ratings = ratingCalls(parts)
  return {
    'workspace.info': async () => ({
      file: parts.workspace.file,
      version: parts.version,
      methodVersion,
      shell: parts.shell,
      empty: parts.workspace.isEmpty(),
      recentTargets: parts.workspace.recentTargets(),
    }),
    ...backupCalls(parts),
    ...sessionCalls(parts),
    ...cameraCalls(parts),
    ...checkCalls(parts),
    ...testDayCalls(parts),
    ...paddleCalls(parts),
    ...fileCalls(parts),
    ...clipCalls(parts),
    ...readingCalls(parts),
    ...stepCalls({ ...hitCalls(parts), ...studyCalls(parts) }),
    ...ratings,
    ...publishCalls(parts, ratings),
    ...exportCalls(parts, servers),
    ...importCalls(parts, servers),
    ...sharedQueueCalls(parts, servers),
    ...bundleCalls(parts),
    ...demoCalls(parts),
  }
}
