/** The catalogue's shares on a build under one name, since most jobs have the same as others. */
import { createHash } from 'node:crypto'

export const sharesId = (shares: ReadonlyMap<string, number>): string =>
  createHash('sha256')
    .update(JSON.stringify([...shares].sort(([a], [b]) => (a < b ? -1 : 1))))
    .digest('hex')
    .slice(0, 32)
