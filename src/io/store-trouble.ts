/** What can go wrong with the place where history is kept, as values; `wording` says it and what to do. Never holds a password. */
import type { FileTroubleCode } from './trouble.ts'

export type StoreTroubleCode =
  /** The address is not one of a store: fact `why`. */
  | 'bad-address'
  | 'no-such-host'
  /** Nothing listens there. */
  | 'refused'
  /** No way there, or no answer in time. */
  | 'unreachable'
  /** It was there, and went while we spoke to it. */
  | 'lost'
  | 'wrong-password'
  /** It does not know this user, or not from here. */
  | 'not-let-in'
  | 'no-such-database'
  /** The user may not do what is needed. */
  | 'no-rights'
  | 'tls'
  /** Facts `version`, `needed`. */
  | 'server-too-old'
  /** A newer program has changed how history is kept: facts `found`, `known`. */
  | 'newer-schema'
  /** Tables of an older program, with so much in them that changing them takes a while: facts `found`, `known`. */
  | 'older-schema'
  | 'read-only'
  /** Too many are connected, it starts or stops, or somebody holds what is needed. */
  | 'busy'
  | 'full'
  /** Anything else: the server's own words. */
  | 'failed'
  | FileTroubleCode

export interface StoreTrouble {
  readonly code: StoreTroubleCode
  /** Host, port and database, or a path. */
  readonly where: string
  readonly facts: Readonly<Record<string, string | number>>
}
