/** Does the work without root's power to write everything; a person who is not root simply does it. */
export function asPlainUser<T>(work: () => T): T {
  const isRoot = process.geteuid?.() === 0
  if (isRoot) process.seteuid?.(65534)
  try {
    return work()
  } finally {
    if (isRoot) process.seteuid?.(0)
  }
}

/** The same for work that takes its time; nothing else may run meanwhile. */
export async function asPlainUserWhile<T>(work: () => Promise<T>): Promise<T> {
  const isRoot = process.geteuid?.() === 0
  if (isRoot) process.seteuid?.(65534)
  try {
    return await work()
  } finally {
    if (isRoot) process.seteuid?.(0)
  }
}
