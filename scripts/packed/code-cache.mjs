/**
 * Keeps the compiled code of the program between runs, in the user's cache folder: a run that finds it neither unpacks nor
 * compiles what it needs. One file a command, since each needs other functions.
 *
 * Compiled code is run as it is, so a file is only read from a folder that nobody else can write to, and only where its
 * checksums are right. Whatever else is wrong (no folder, no space, another program's file) is no mistake: the program
 * then starts as if it were the first time.
 *
 * Groups are read and written one by one: after a large block of memory has been freed, glibc hands back less of what
 * follows, and a job would hold 8 MB more for hours (measured with `tests/bench/screen.mjs`).
 */
const {
  closeSync,
  constants,
  fstatSync,
  lstatSync,
  mkdirSync,
  openSync,
  readdirSync,
  readSync,
  renameSync,
  rmSync,
  statSync,
  writeSync,
} = process.getBuiltinModule('node:fs')
const { isAbsolute, join } = process.getBuiltinModule('node:path')

/** Of our files, those of other commands, versions and Nodes included, the newest so many are kept. */
const KEPT = 16
/** Bytes. Ten times what the largest takes. */
const LARGEST = 40_000_000
const ENDING = '.code'
/** Bytes at the end of a file: the length of its table and the table's checksum. */
const TRAILER = 8

/** Only this user may have written it. */
const ours = (stat) => stat.uid === process.getuid() && (stat.mode & 0o022) === 0

/**
 * The folder, where one may be used; it is made if need be.
 * @param env the environment: XDG_CACHE_HOME as in the XDG Base Directory Specification, or .cache in the home folder
 */
export function cacheFolder(env) {
  if (env.WHICHLEAD_CODE_CACHE === 'off' || env.NODE_DISABLE_COMPILE_CACHE) return undefined
  // Where the system does not tell who owns a file, nobody can tell who wrote it.
  if (process.getuid === undefined) return undefined
  const given = env.XDG_CACHE_HOME
  const absolute = given !== undefined && isAbsolute(given)
  if (!absolute && !(env.HOME && isAbsolute(env.HOME))) return undefined
  const home = absolute ? given : join(env.HOME, '.cache')
  const folder = join(home, 'whichlead')
  const found = () => lstatSync(folder, { throwIfNoEntry: false })
  try {
    if (found() === undefined) for (const path of [home, folder]) make(path)
    const stat = found()
    return stat?.isDirectory() && ours(stat) ? folder : undefined
  } catch {
    return undefined
  }
}

function make(path) {
  try {
    mkdirSync(path, { mode: 0o700 })
  } catch (error) {
    if (error.code !== 'EEXIST') throw error
  }
}

/**
 * Opens what was kept under a name: `{ has, read, close }`, or undefined where there is nothing that can be trusted.
 * `read(group)` gives its source and code, or undefined where the disk has changed them; the code is good until the next read.
 *
 * A file is: of each group its source (one byte a letter) and its code; the table; the trailer.
 * @param checksum crc32 of bytes
 */
export function openCode(folder, name, checksum) {
  let file
  try {
    file = openSync(join(folder, name + ENDING), constants.O_RDONLY | constants.O_NOFOLLOW)
    const table = tableOf(file, name, checksum)
    if (table !== undefined) return reader(file, table, checksum)
  } catch {
    // Not there, not readable, or no table: then it is made anew.
  }
  if (file !== undefined) closeSync(file)
  return undefined
}

function tableOf(file, name, checksum) {
  const stat = fstatSync(file)
  if (!stat.isFile() || !ours(stat) || stat.size < TRAILER || stat.size > LARGEST) return undefined
  const trailer = bytesAt(file, Buffer.alloc(TRAILER), stat.size - TRAILER)
  const length = trailer.readUInt32LE(0)
  if (length > stat.size - TRAILER) return undefined
  const text = bytesAt(file, Buffer.alloc(length), stat.size - TRAILER - length)
  if (checksum(text) !== trailer.readUInt32LE(4)) return undefined
  const table = JSON.parse(text.toString('latin1'))
  return table.name === name ? table.groups : undefined
}

function bytesAt(file, into, start) {
  for (let done = 0; done < into.length; ) {
    const more = readSync(file, into, done, into.length - done, start + done)
    if (more === 0) throw new Error('the file ends too soon')
    done += more
  }
  return into
}

function reader(file, groups, checksum) {
  const sizes = Object.values(groups).map(([, source, code]) => source + code)
  const room = Buffer.allocUnsafeSlow(Math.max(0, ...sizes))
  return {
    has: (group) => groups[group] !== undefined,
    read(group) {
      const [start, sourceSize, codeSize, sum] = groups[group]
      try {
        const bytes = bytesAt(file, room.subarray(0, sourceSize + codeSize), start)
        if (checksum(bytes) !== sum) return undefined
        // Code first: V8 copies what does not begin at a multiple of eight.
        return { source: bytes.latin1Slice(codeSize), code: bytes.subarray(0, codeSize) }
      } catch {
        return undefined
      }
    },
    names: Object.keys(groups),
    close: () => closeSync(file),
  }
}

/**
 * Writes a file whole or not at all, and drops the oldest of too many.
 * @param groups gives each group as `[name, { source, code }]`, one after the other
 */
export function writeCode(folder, name, groups, checksum) {
  const beside = join(folder, `${name}.${process.pid}${ENDING}`)
  try {
    const file = openSync(beside, 'wx', 0o600)
    try {
      writeAll(file, name, groups, checksum)
    } finally {
      closeSync(file)
    }
    renameSync(beside, join(folder, name + ENDING))
    dropOldest(folder)
  } catch {
    dropped(beside)
  }
}

function writeAll(file, name, groups, checksum) {
  const table = {}
  let at = 0
  const write = (bytes) => {
    for (let done = 0; done < bytes.length; ) done += writeSync(file, bytes, done)
    at += bytes.length
  }
  for (const [group, { source, code }] of groups) {
    const text = Buffer.from(source, 'latin1')
    table[group] = [at, text.length, code.length, checksum(text, checksum(code))]
    write(code)
    write(text)
  }
  const text = Buffer.from(JSON.stringify({ name, groups: table }), 'latin1')
  const trailer = Buffer.alloc(TRAILER)
  trailer.writeUInt32LE(text.length, 0)
  trailer.writeUInt32LE(checksum(text), 4)
  write(text)
  write(trailer)
}

function dropOldest(folder) {
  const files = readdirSync(folder)
    .filter((file) => file.endsWith(ENDING))
    .map((file) => ({ path: join(folder, file), written: statSync(join(folder, file)).mtimeMs }))
  for (const { path } of files.sort((a, b) => b.written - a.written).slice(KEPT)) dropped(path)
}

function dropped(path) {
  try {
    rmSync(path, { force: true })
  } catch {
    // A folder that cannot be written to any more.
  }
}
