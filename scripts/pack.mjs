// Packs the program into one file: a short start in plain text, and the rest in pieces that are unpacked when a command
// needs them. `--version` then reads nothing else, `check` no screen, and the file is a third of what it was.
//
// esbuild splits the program by what is imported when; each piece becomes a function of `require`, `module` and
// `exports`; pieces that are wanted together are compressed together and are one script, a list of these functions.
import { createHash } from 'node:crypto'
import { readFile } from 'node:fs/promises'
import { fileURLToPath } from 'node:url'
import { brotliCompressSync, constants } from 'node:zlib'
import { build, transform } from 'esbuild'

const here = (path) => fileURLToPath(new URL(path, import.meta.url))
const LOADER = here('./packed/loader.mjs')
const COMMAND = /^src\/cli\/commands\/([a-z-]+)\.ts$/

/** What is wanted together, by the file that asks for it; a piece goes with the first that reaches it. */
const TOGETHER = [
  ['start', ['src/cli/start.ts']],
  ['plan', ['src/cli/commands/check.ts']],
  ['words', ['src/wording/en/english.ts', 'src/cli/commands/draw.ts', 'src/cli/commands/new.ts']],
  ['job', ['src/cli/commands/diagnose.ts', 'src/cli/commands/first-boot.ts', 'src/cli/commands/resume.ts']],
  ['screen', ['src/ui/run.tsx', 'src/ui/chooser.tsx']],
  ['store', ['src/job/history/postgres/postgres-history.ts']],
  ['rest', []],
]

/**
 * Ink's door to its developer tools waits while it loads, which a function cannot; the packed program has none. And its
 * frames are put together by the row, not by the cell.
 */
const leanInk = {
  name: 'lean-ink',
  setup({ onLoad, onResolve }) {
    onResolve({ filter: /^\.\/output\.js$/ }, ({ importer }) =>
      /[\\/]ink[\\/]build[\\/]renderer\.js$/.test(importer) ? { path: here('./stub-output.mjs') } : undefined,
    )
    onLoad({ filter: /[\\/]ink[\\/]build[\\/]reconciler\.js$/ }, async ({ path }) => {
      const text = await readFile(path, 'utf8')
      const contents = text
        .replace("await import('./devtools.js')", '')
        .replace(/isDev\(\)\s*\? await loadPackageJson\(\)\s*:/, '')
      return { contents, loader: 'js' }
    })
  },
}

const nameOf = (path) => path.slice(path.lastIndexOf('/') + 1)

/** Every piece with its text, what it needs before it runs, and the source file that it begins at. */
async function piecesOf(options, entry) {
  const { outputFiles, metafile } = await build({
    ...options,
    entryPoints: [entry],
    outdir: '/',
    outExtension: { '.js': '.mjs' },
    bundle: true,
    splitting: true,
    plugins: [leanInk],
    format: 'esm',
    write: false,
    metafile: true,
  })
  const texts = new Map(outputFiles.map((file) => [nameOf(file.path), file.text]))
  const pieces = new Map()
  for (const [path, output] of Object.entries(metafile.outputs)) {
    const name = nameOf(path)
    const needs = output.imports.filter((i) => !i.external && i.kind === 'import-statement')
    const text = texts.get(name).replaceAll(/\bimport\("/g, 'importPiece("')
    const { code } = await transform(text, { format: 'cjs', minify: true, target: options.target })
    pieces.set(name, {
      code: asciiOnly(ownExports(code)),
      needs: needs.map((i) => nameOf(i.path)),
      begins: output.entryPoint ?? '',
    })
  }
  return pieces
}

/** A piece gives out its exports as they are: a copy marked as CommonJS, two definitions an export, is for other loaders. */
const ownExports = (code) => code.replace(/\bmodule\.exports=[\w$]+\(([\w$]+)\);/, 'module.exports=$1;')

function reached(pieces, from, into = new Set()) {
  for (const name of from) if (!into.has(name)) reached(pieces, pieces.get(name).needs, into.add(name))
  return into
}

/** Pieces by group, in the order of TOGETHER. */
function grouped(pieces) {
  const left = new Map(pieces)
  return TOGETHER.map(([group, files]) => {
    const begins = [...pieces].filter(([, p]) => files.some((file) => p.begins.endsWith(file)))
    const names =
      group === 'rest'
        ? [...left.keys()]
        : [
            ...reached(
              pieces,
              begins.map(([name]) => name),
            ),
          ]
    const taken = names.filter((name) => left.delete(name)).sort()
    return [group, taken]
  })
}

/** esbuild leaves other letters in regular expressions; without them a piece takes one byte a letter in memory. */
const asciiOnly = (text) =>
  text.replaceAll(/[^\0-\x7f]/g, (unit) => `\\u${unit.charCodeAt(0).toString(16).padStart(4, '0')}`)

const compressed = (text) =>
  brotliCompressSync(Buffer.from(text, 'latin1'), {
    params: {
      [constants.BROTLI_PARAM_QUALITY]: 11,
      [constants.BROTLI_PARAM_LGWIN]: 22,
      [constants.BROTLI_PARAM_SIZE_HINT]: text.length,
    },
  }).toString('base64')

/** A piece as a function. */
const asFunction = (code) => `function(require,module,exports,importPiece,whenReady){${code}\n}`

/** Lets the start of the program ask the loader for the rest. */
const withLoader = (main, entry, first) => ({
  name: 'with-loader',
  setup({ onLoad }) {
    onLoad({ filter: new RegExp(`[\\\\/]${nameOf(main).replace('.', '\\.')}$`) }, async ({ path }) => {
      if (path !== main) return undefined
      const text = await readFile(path, 'utf8')
      const contents = text.replace(/\bimport\('\.\/(cli\/start\.ts)'\)/, (_, file) =>
        entry.endsWith(file) ? `importPiece('./${first}')` : '',
      )
      if (!contents.includes('importPiece'))
        throw new Error('the start of the program does not load the rest')
      return { contents: `import { importPiece } from ${JSON.stringify(LOADER)}\n${contents}`, loader: 'ts' }
    })
  },
})

/**
 * The packed program as text.
 * @param options for esbuild   @param main the file that starts; it imports `entry` and nothing else that is large
 */
export async function packed(options, main, entry) {
  const pieces = await piecesOf(options, entry)
  const where = {}
  const groups = {}
  const sizes = []
  let all = ''
  for (const [group, names] of grouped(pieces)) {
    names.forEach((name, i) => {
      where[name] = [group, i]
    })
    const text = `[${names.map((name) => asFunction(pieces.get(name).code))}]`
    const pack = compressed(text)
    groups[group] = [all.length, all.length + pack.length]
    all += pack
    sizes.push({ group, plain: text.length, packed: pack.length })
  }
  const first = [...pieces].find(([, p]) => p.begins.endsWith(nameOf(entry)))[0]
  const commands = [...pieces.values()].flatMap(({ begins }) => COMMAND.exec(begins)?.[1] ?? [])
  const { outputFiles } = await build({
    ...options,
    entryPoints: [main],
    bundle: true,
    format: 'esm',
    write: false,
    plugins: [withLoader(main, entry, first)],
    define: {
      ...options.define,
      PIECES: JSON.stringify(where),
      GROUPS: JSON.stringify(groups),
      COMMANDS: JSON.stringify(commands.sort()),
      BUILD: JSON.stringify(createHash('sha256').update(all).digest('hex').slice(0, 16)),
    },
  })
  // In a comment, so that a run that finds everything in the cache does not keep it in memory.
  const text = `#!/usr/bin/env node\n${outputFiles[0].text.trimEnd()}\n//${all}\n`
  return { text, sizes }
}
