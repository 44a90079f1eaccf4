/**
 * Errors of the driver, the system and the server as trouble. The server's by their SQLSTATE (PostgreSQL 15
 * documentation, appendix A), so that they are known in whatever language it speaks.
 */
import type { StoreTrouble, StoreTroubleCode } from './store-trouble.ts'

/** Carries trouble up to where it becomes a value. */
export class StoreFailure extends Error {
  readonly trouble: StoreTrouble
  /** Another try of the same may go well: others were in the way. */
  readonly passing: boolean
  constructor(trouble: StoreTrouble, passing = false) {
    super(trouble.code)
    this.trouble = trouble
    this.passing = passing
  }
}

const BY_CODE: Readonly<Record<string, StoreTroubleCode>> = {
  ENOTFOUND: 'no-such-host',
  EAI_AGAIN: 'no-such-host',
  ECONNREFUSED: 'refused',
  // A socket file that is not there.
  ENOENT: 'refused',
  EACCES: 'refused',
  ETIMEDOUT: 'unreachable',
  EHOSTUNREACH: 'unreachable',
  ENETUNREACH: 'unreachable',
  ENETDOWN: 'unreachable',
  EADDRNOTAVAIL: 'unreachable',
  ECONNRESET: 'lost',
  EPIPE: 'lost',
  '28P01': 'wrong-password',
  '28000': 'not-let-in',
  '3D000': 'no-such-database',
  '42501': 'no-rights',
  '25006': 'read-only',
  '57P01': 'lost',
  '57P02': 'lost',
  '57P03': 'busy',
  '53300': 'busy',
  '55P03': 'busy',
  '57014': 'busy',
  '40001': 'busy',
  '40P01': 'busy',
  '53100': 'full',
}

/** What has no code of its own is known by its words, which are those of the driver. */
const BY_WORDS: readonly (readonly [RegExp, StoreTroubleCode])[] = [
  [/SASL|password must be/i, 'wrong-password'],
  [/does not support SSL|certificate|self-signed|\bTLS\b|ssl/i, 'tls'],
  [/timeout|timed out/i, 'unreachable'],
  [/terminated|not queryable|closed|ended/i, 'lost'],
]

/** @param where the store, without a password */
export function storeFailure(error: unknown, where: string): StoreFailure {
  if (error instanceof StoreFailure) return error
  // Where a name has several addresses, each has its own error in a bundle.
  const first = error instanceof AggregateError ? (error.errors[0] as unknown) : error
  const said = first instanceof Error ? first.message : String(first)
  const state = first instanceof Error && 'code' in first ? String(first.code) : ''
  const code =
    BY_CODE[state] ??
    (/^(?:ERR_TLS|ERR_SSL|CERT_|DEPTH_|SELF_|UNABLE_TO_|HOSTNAME_MISMATCH)/.test(state)
      ? 'tls'
      : undefined) ??
    (/^08/.test(state) ? 'lost' : undefined) ??
    (state === '' ? BY_WORDS.find(([words]) => words.test(said))?.[1] : undefined) ??
    'failed'
  const facts = { ...(state === '' ? {} : { state }), said: said.slice(0, 300) }
  return new StoreFailure({ code, where, facts }, state === '40001' || state === '40P01')
}
