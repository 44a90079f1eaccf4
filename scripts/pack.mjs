// Packs the program into one file: a short start in plain text, and the rest in pieces that are unpacked when a command
// needs them. `--version` then reads nothing else, `check` no screen, and the file is a third of what it was.
//
// esbuild splits the program by what is imported when; each piece becomes a function of `require`, `module` and
// `exports`; pieces that are wanted together are compressed together.
import { readFile } from 'node:fs/promises'
import { brotliCompressSync, constants } from 'node:zlib'
import { build, transform } from 'esbuild'

/** What is wanted together, by the file that asks for it; a piece goes with the first that reaches it. */
const TOGETHER = [
  ['start', ['src/cli/start.ts']],
  ['plan', ['src/cli/commands/check.ts', 'src/cli/commands/draw.ts', 'src/cli/commands/new.ts']],
  ['job', ['src/cli/commands/diagnose.ts', 'src/cli/commands/resume.ts']],
  ['screen', ['src/ui/run.tsx', 'src/ui/chooser.tsx']],
  ['store', ['src/job/history/postgres/postgres-history.ts']],
  ['rest', []],
]

/** Ink's door to its developer tools waits while it loads, which a function cannot; the packed program has none. */
const withoutDevTools = {
  name: 'without-dev-tools',
  setup({ onLoad }) {
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
    plugins: [withoutDevTools],
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
      code: asciiOnly(code),
      needs: needs.map((i) => nameOf(i.path)),
      begins: output.entryPoint ?? '',
    })
  }
  return pieces
}

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

/** Runs in the packed program, before anything else. */
const LOADER = `import { createRequire } from 'node:module'
const fromNode = createRequire(import.meta.url)
const loaded = new Map(), unpacked = new Map(), waits = []
const textOf = (name) => {
  const [group, start, end] = WHERE[name]
  let text = unpacked.get(group)
  if (text === undefined) {
    text = fromNode('node:zlib').brotliDecompressSync(Buffer.from(PACKED[group], 'base64')).toString('latin1')
    unpacked.set(group, text)
  }
  return text.slice(start, end)
}
const pieceOf = (path) => {
  const name = path.slice(2)
  if (WHERE[name] === undefined) return fromNode(path)
  const known = loaded.get(name)
  if (known !== undefined) return known.exports
  const module = { exports: {} }
  loaded.set(name, module)
  const run = fromNode('node:vm').compileFunction(
    textOf(name), ['require', 'module', 'exports', 'importPiece', 'whenReady'], { filename: 'whichlead/' + name })
  run(pieceOf, module, module.exports, importPiece, (wait) => waits.push(wait))
  return module.exports
}
const importPiece = async (path) => {
  const piece = pieceOf(path)
  await Promise.all(waits)
  return piece
}
`

/**
 * The packed program as text.
 * @param options for esbuild   @param main the file that starts; it imports `entry` and nothing else that is large
 */
export async function packed(options, main, entry) {
  const pieces = await piecesOf(options, entry)
  const where = {}
  const packs = {}
  const sizes = []
  for (const [group, names] of grouped(pieces)) {
    let text = ''
    for (const name of names) {
      const { code } = pieces.get(name)
      where[name] = [group, text.length, text.length + code.length]
      text += code
    }
    packs[group] = compressed(text)
    sizes.push({ group, plain: text.length, packed: packs[group].length })
  }
  const first = [...pieces].find(([, p]) => p.begins.endsWith(nameOf(entry)))[0]
  const { outputFiles } = await build({
    ...options,
    entryPoints: [main],
    bundle: true,
    format: 'esm',
    write: false,
    external: ['./cli/start.ts'],
  })
  const start = outputFiles[0].text.replace(/\bimport\("\.\/cli\/start\.ts"\)/, `importPiece("./${first}")`)
  if (!start.includes('importPiece')) throw new Error('the start of the program does not load the rest')
  const { code: loader } = await transform(LOADER, { minifyWhitespace: true, minifySyntax: true })
  const text = [
    '#!/usr/bin/env node',
    `const WHERE=${JSON.stringify(where)};`,
    `const PACKED=${JSON.stringify(packs)};`,
    loader.trim(),
    start,
  ].join('\n')
  return { text, sizes }
}
