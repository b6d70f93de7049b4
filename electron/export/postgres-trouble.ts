import { WhorlError } from '../../core/contract/problem.ts'

type Fault = { code?: unknown; message?: unknown }

/**
 * Another writer was there first: nothing was written, and the same again will do (SQLSTATE). A table that two make
 * at once is there already as a row of the catalogue, as a table or as its type of row, by who is how far.
 */
const again = ['40001', '40P01', '23505', '42P07', '42710', 'CR000']
const goneCodes = /^(ECONNRESET|EPIPE|57P0[12]|08...)$/
const awayCodes = /^(ECONNREFUSED|ENOTFOUND|EAI_AGAIN|ETIMEDOUT|EHOSTUNREACH|ENETUNREACH|ENOENT|57P03|53300)$/
const tlsCodes = /^(ERR_TLS.*|ERR_SSL.*|DEPTH_ZERO.*|SELF_SIGNED.*|UNABLE_TO.*|CERT_.*|EPROTO)$/

const codeOf = (thrown: unknown) => String((thrown as Fault | null)?.code ?? '')
const wordsOf = (thrown: unknown) => String((thrown as Fault | null)?.message ?? thrown)

export const isConflict = (thrown: unknown) => again.includes(codeOf(thrown))

/** The connection was lost on the way, or the server was just being started again. */
export const isDropped = (thrown: unknown) =>
  goneCodes.test(codeOf(thrown)) ||
  codeOf(thrown) === '57P03' ||
  /connection terminated|not queryable/i.test(wordsOf(thrown))

/** What a server's error means for the person (SQLSTATE: PostgreSQL 18, appendix A). The cause is not kept: it may hold more than should be told. */
export function serverProblem(place: string, thrown: unknown): unknown {
  if (thrown instanceof WhorlError) return thrown
  const code = codeOf(thrown)
  const words = wordsOf(thrown)
  if (/^(28P01|28000)$/.test(code) || /SASL|password/i.test(words))
    return new WhorlError('server-login', { place })
  if (tlsCodes.test(code) || /SSL|TLS|certificate/i.test(words))
    return new WhorlError('server-tls', { place, what: words })
  if (awayCodes.test(code) || isDropped(thrown) || /timeout/i.test(words))
    return new WhorlError('server-away', { place })
  if (isConflict(thrown)) return new WhorlError('target-locked', { path: place })
  if (/^(55P03|57014)$/.test(code)) return new WhorlError('target-locked', { path: place })
  if (/^(42501|25006)$/.test(code)) return new WhorlError('target-read-only', { path: place })
  if (code === '53100') return new WhorlError('disk-full', { path: place })
  if (/^[0-9A-Z]{5}$/.test(code)) return new WhorlError('target-unlike', { path: place, what: words })
  return thrown
}
