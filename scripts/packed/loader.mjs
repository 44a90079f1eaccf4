/**
 * Loads the packed program: takes a group of pieces from the code that an earlier run has kept, or else unpacks it from the
 * end of this very file and compiles it, and keeps it for the next run. `scripts/pack.mjs` puts in PIECES, GROUPS, COMMANDS, BUILD.
 */
import { cacheFolder, openCode, writeCode } from './code-cache.mjs'
import { setUpEngine } from './engine-flags.mjs'

/** Milliseconds after the last group. The first question is shown by then, and V8 still has what the start needed. */
const SETTLED = 3000

/** As `import` does for a part of Node, without making a module of it: of node:fs, that would load all streams. */
const fromNode = process.getBuiltinModule
const loaded = new Map()
/** Group → the functions that are its pieces. */
const groups = new Map()
const waits = []

/** What is wanted from the cache and for it; undefined before the first group, and again when all that is over. */
let store
/** Groups of this run: name → what it was made of and what came of it. */
const scripts = new Map()
let timer

/** The text of a group, unpacked. The last line of the program is a comment with all groups one after the other. */
function groupText(group) {
  const program = fromNode('node:fs').readFileSync(import.meta.filename, 'latin1')
  const start = program.lastIndexOf('\n//') + 3
  const [from, to] = GROUPS[group]
  const packed = Buffer.from(program.slice(start + from, start + to), 'base64')
  return fromNode('node:zlib').brotliDecompressSync(packed).toString('latin1')
}

const checksum = (bytes, before) => fromNode('node:zlib').crc32(bytes, before)

/** What was kept for this command, by this very program, on this very engine with these flags. */
function openStore() {
  const { setFlagsFromString, cachedDataVersionTag } = fromNode('node:v8')
  const argv = process.argv.slice(2)
  // Before the flags: what Node has compiled of itself is good without them only.
  for (const name of ['node:vm', 'node:zlib']) fromNode(name)
  fromNode('node:util').parseArgs
  setUpEngine(setFlagsFromString, argv, process.stdout.isTTY)
  const folder = cacheFolder(process.env)
  if (folder === undefined) return {}
  const command = COMMANDS.includes(argv[0]) ? argv[0] : 'other'
  const engine = `${process.version}-${process.arch}-${cachedDataVersionTag().toString(16)}`
  const name = `${command}-${BUILD}-${engine}`
  return { folder, name, kept: openCode(folder, name, checksum) }
}

function compiled(name) {
  store ??= openStore()
  const { Script } = fromNode('node:vm')
  const found = store.kept?.has(name) ? store.kept.read(name) : undefined
  const source = found?.source ?? groupText(name)
  const script = new Script(source, { filename: `whichlead/${name}`, cachedData: found?.code })
  if (store.folder !== undefined) {
    scripts.set(name, { source, script })
    if (!found || script.cachedDataRejected) store.isNew = true
    if (timer === undefined) process.on('exit', settle)
    clearTimeout(timer)
    timer = setTimeout(settle, SETTLED).unref()
  }
  return script.runInThisContext()
}

/** When the start is over, or the program: keeps what is new, once, and lets go of what the start has read. */
function settle() {
  process.off('exit', settle)
  clearTimeout(timer)
  const { folder, name, kept, isNew } = store
  if (isNew) writeCode(folder, name, allCode(kept), checksum)
  kept?.close()
  store = {}
  scripts.clear()
}

/** What this run has loaded, and what an earlier one had kept and this one did not need. */
function* allCode(kept) {
  for (const [name, { source, script }] of scripts) yield [name, { source, code: script.createCachedData() }]
  for (const name of kept?.names ?? []) {
    const found = scripts.has(name) ? undefined : kept.read(name)
    if (found !== undefined) yield [name, found]
  }
}

function pieceOf(path) {
  const name = path.slice(2)
  if (PIECES[name] === undefined) return fromNode(path)
  const known = loaded.get(name)
  if (known !== undefined) return known.exports
  const module = { exports: {} }
  loaded.set(name, module)
  const [group, index] = PIECES[name]
  if (!groups.has(group)) groups.set(group, compiled(group))
  groups.get(group)[index](pieceOf, module, module.exports, importPiece, (wait) => waits.push(wait))
  return module.exports
}

/** As `import()` does for a file. */
export async function importPiece(path) {
  const piece = pieceOf(path)
  await Promise.all(waits)
  return piece
}
