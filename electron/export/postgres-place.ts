import { WhorlError } from '../../core/contract/problem.ts'

export const isConnectionString = (text: string) => /^postgres(ql)?:\/\//i.test(text.trim())

/**
 * How a server is shown and remembered: its address and database, without user, password and options.
 *
 * @throws `server-string` for what is no connection string; it does not repeat it, for it may hold a password
 */
export function placeOfString(text: string): string {
  const url = parsed(text)
  const host = url.hostname || url.searchParams.get('host') || 'localhost'
  const database = url.pathname.replace(/^\//, '') || decodeURIComponent(url.username) || 'postgres'
  return `postgres://${host}${url.port === '' || url.port === '5432' ? '' : `:${url.port}`}/${database}`
}

/** True for a place as it is remembered: enough to say which server, not to get in. */
export const isPlaceOnly = (text: string) => {
  const { username, search } = parsed(text)
  return username === '' && search === ''
}

function parsed(text: string): URL {
  try {
    return new URL(text.trim().replace(/^postgresql:/i, 'postgres:'))
  } catch {
    throw new WhorlError('server-string', {})
  }
}
