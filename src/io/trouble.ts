/**
 * What can go wrong with a file on the way to the disk, as values: a code, the path and the facts that a sentence
 * needs. Nothing here is for people to read; `wording/en/log.ts` says it and what to do.
 */

export type FileTroubleCode =
  /** The file is there already and was meant to be new. */
  | 'exists'
  | 'missing'
  | 'folder-missing'
  | 'is-a-folder'
  | 'not-a-file'
  | 'no-permission'
  | 'read-only'
  | 'disk-full'
  /** A quota or a limit on the size of files. */
  | 'limit-reached'
  | 'too-large'
  /** Another program writes it: facts `pid`, `host`, `since`. */
  | 'in-use'
  /** Its size is not what this program left: somebody else wrote to it. */
  | 'changed-by-another'
  /** The file or its folder was moved or removed while it was open. */
  | 'vanished'
  | 'name-too-long'
  | 'disk-error'

export interface FileTrouble {
  readonly code: FileTroubleCode
  readonly path: string
  readonly facts: Readonly<Record<string, string | number>>
}

export type Failed = { readonly ok: false; readonly trouble: FileTrouble }
export type Done<T> = ({ readonly ok: true } & T) | Failed

const codes: Readonly<Record<string, FileTroubleCode>> = {
  EEXIST: 'exists',
  ENOENT: 'missing',
  ENOTDIR: 'folder-missing',
  EISDIR: 'is-a-folder',
  EACCES: 'no-permission',
  EPERM: 'no-permission',
  EROFS: 'read-only',
  ENOSPC: 'disk-full',
  EDQUOT: 'limit-reached',
  EFBIG: 'limit-reached',
  ESTALE: 'vanished',
  ENAMETOOLONG: 'name-too-long',
}

export const failed = (
  code: FileTroubleCode,
  path: string,
  facts: Readonly<Record<string, string | number>> = {},
): Failed => ({ ok: false, trouble: { code, path, facts } })

/** An error of the operating system as a value; anything else is ours and goes on up. */
export function failedBy(error: unknown, path: string): Failed {
  const code = error instanceof Error && 'code' in error ? String(error.code) : undefined
  if (code === undefined || !/^E[A-Z0-9]+$/.test(code)) throw error
  return failed(codes[code] ?? 'disk-error', path, { system: code })
}
