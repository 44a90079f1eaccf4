/**
 * The address of a store as people write it: `postgres://user@host:port/database?sslmode=verify-full`. What it says of
 * TLS is meant as libpq means it. Where it ends up in a sentence, it has no password and no user any more.
 */
import { parse } from 'pg-connection-string'
import type { StoreTrouble } from './store-trouble.ts'

export interface StoreAddress {
  /** Host, port and database: `bench-server:5432/whichlead`. */
  readonly where: string
  readonly host: string
  readonly port: number
  readonly database: string | undefined
  readonly user: string | undefined
  readonly password: string | undefined
  readonly ssl: false | object
  readonly connectSeconds: number
}

/** A bench without a network goes on after this, unless the address says `connect_timeout`. */
const CONNECT_SECONDS = 2

/** The ways to use TLS that do what they say; `prefer` and `allow` would fall back to none without a word. */
const MODES = ['disable', 'require', 'verify-ca', 'verify-full']

type Read =
  | { readonly ok: true; readonly address: StoreAddress }
  | { readonly ok: false; readonly trouble: StoreTrouble }

const bad = (why: string, facts: StoreTrouble['facts'] = {}): Read => ({
  ok: false,
  trouble: { code: 'bad-address', where: '', facts: { ...facts, why } },
})

/** @param env for what the address leaves out, by libpq's names */
export function readStoreAddress(
  text: string,
  env: Readonly<Record<string, string | undefined>> = process.env,
): Read {
  if (!/^postgres(?:ql)?:\/\//.test(text)) return bad('scheme')
  const mode = /[?&]sslmode=([^&]*)/.exec(text)?.[1] ?? env.PGSSLMODE
  if (mode !== undefined && !MODES.includes(mode)) return bad('sslmode', { found: mode.slice(0, 40) })
  const withMode = mode === undefined || text.includes('sslmode=') ? text : joined(text, `sslmode=${mode}`)
  let options: ReturnType<typeof parse>
  try {
    options = parse(withMode, { useLibpqCompat: true })
  } catch (error) {
    // Its own messages may quote the address, so only what kind of mistake it is goes on.
    const code = error instanceof Error && 'code' in error ? String(error.code) : ''
    if (code === 'ENOENT' || code === 'EACCES') return bad('certificate')
    return bad(mode === 'verify-ca' ? 'verify-ca' : 'form')
  }
  const host = options.host || env.PGHOST || 'localhost'
  const port = Number(options.port || env.PGPORT || 5432)
  if (!Number.isInteger(port) || port < 1 || port > 65535) return bad('port')
  const user = options.user || env.PGUSER || env.USER || env.USERNAME
  const database = options.database || env.PGDATABASE || user
  const seconds = Number((options as { connect_timeout?: string }).connect_timeout ?? CONNECT_SECONDS)
  return {
    ok: true,
    address: {
      where: `${host.includes(':') ? `[${host}]` : host}:${port}/${database ?? ''}`,
      host,
      port,
      database,
      user,
      password: options.password || env.PGPASSWORD,
      ssl: typeof options.ssl === 'object' ? options.ssl : false,
      connectSeconds: seconds > 0 ? seconds : CONNECT_SECONDS,
    },
  }
}

const joined = (text: string, setting: string): string => `${text}${text.includes('?') ? '&' : '?'}${setting}`
