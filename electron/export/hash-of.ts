import { createHash } from 'node:crypto'

/** SHA-256 in hexadecimal. */
export const hashOf = (bytes: Uint8Array | string) => createHash('sha256').update(bytes).digest('hex')
