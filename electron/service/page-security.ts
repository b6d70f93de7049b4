import { createHash } from 'node:crypto'
import { reportStyle } from '../publish/html-of.ts'

const hashOf = (text: string) => createHash('sha256').update(text).digest('base64')

/**
 * What the page may do, said with every answer of either shell. Scripts, styles and fonts come from the
 * app's own files alone, and it may ask nobody but the shell that served it. A report is looked at in a frame
 * of the page without rights: its one style is known by its hash, its fonts come along with it.
 * Sources: Content Security Policy Level 3 (W3C); OWASP Secure Headers Project.
 */
export const securityHeaders: Readonly<Record<string, string>> = {
  'content-security-policy': [
    "default-src 'none'",
    "script-src 'self'",
    `style-src 'self' 'sha256-${hashOf(reportStyle())}'`,
    "font-src 'self' data:",
    "img-src 'self' data: blob:",
    'media-src blob:',
    "connect-src 'self'",
    "worker-src 'self'",
    "base-uri 'none'",
    "form-action 'none'",
    "frame-ancestors 'none'",
  ].join('; '),
  'x-content-type-options': 'nosniff',
  'x-frame-options': 'DENY',
  'referrer-policy': 'no-referrer',
  'cross-origin-opener-policy': 'same-origin',
  'cross-origin-resource-policy': 'same-origin',
  'permissions-policy':
    'camera=(), microphone=(), geolocation=(), usb=(), serial=(), hid=(), display-capture=()',
  'cache-control': 'no-store',
}
