/**
 * The layers as the code has them, read off its text: who imports whom, what the pure layers may not touch, how files
 * are named and how long they are. The linter holds most of this too; what it cannot see (`globalThis.Date`,
 * `Math.random`, `import('…').Type`, folder names) is held here alone.
 */
import { readdirSync, readFileSync } from 'node:fs'
import { dirname, join, normalize, relative } from 'node:path'
import { fileURLToPath } from 'node:url'
import { describe, expect, it } from 'vitest'

const root = fileURLToPath(new URL('../', import.meta.url))

/** Every layer, with the layers further in that it may import. */
const LAYERS: Readonly<Record<string, readonly string[]>> = {
  'src/core': [],
  flows: ['src/core'],
  'src/io': ['src/core'],
  'src/job': ['src/core', 'flows', 'src/io'],
  'src/wording': ['src/core', 'flows', 'src/job'],
  'src/plain': ['src/core', 'flows', 'src/io', 'src/job', 'src/wording'],
  'src/ui': ['src/core', 'flows', 'src/io', 'src/job', 'src/wording'],
  'src/cli': ['src/core', 'flows', 'src/io', 'src/job', 'src/wording', 'src/plain', 'src/ui'],
}
const PURE = ['src/core', 'flows', 'src/wording']

/** Libraries, by the layers that may know them. */
const LIBRARIES: Readonly<Record<string, readonly string[]>> = {
  xstate: ['flows', 'src/job'],
  react: ['src/ui'],
  ink: ['src/ui'],
  'ink-select-input': ['src/ui'],
  zod: Object.keys(LAYERS),
  'js-yaml': ['src/core'],
  yaml: ['src/core'],
  pg: ['src/io'],
  pgpass: ['src/io'],
  'pg-connection-string': ['src/io'],
}

const FOLDERS: Readonly<Record<string, readonly string[]>> = {
  src: ['core', 'job', 'wording', 'io', 'cli', 'plain', 'ui'],
  'src/core': ['plan', 'electrics', 'audit', 'bench', 'faults', 'checks', 'infer', 'readings'],
  flows: ['shared'],
}

/** Longer than the rest; the list may only get shorter. */
const LONG: readonly string[] = ['src/core/bench/world.ts']
const LONGEST = 250

function filesUnder(folder: string): string[] {
  return readdirSync(join(root, folder), { withFileTypes: true }).flatMap((entry) => {
    const path = `${folder}/${entry.name}`
    if (entry.isDirectory()) return filesUnder(path)
    return /\.tsx?$/u.test(entry.name) ? [path] : []
  })
}

const sources = [...filesUnder('src'), ...filesUnder('flows')].sort()
const text = new Map(sources.map((path) => [path, readFileSync(join(root, path), 'utf8')]))
const textOf = (path: string): string => text.get(path) ?? ''

/** Without comments, so that a comment may name what the code may not. */
const codeOf = (path: string): string =>
  textOf(path)
    .replace(/\/\*[\s\S]*?\*\//gu, '')
    .replace(/(^|[^:'"`])\/\/.*$/gmu, '$1')

const layerOf = (path: string): string | undefined =>
  Object.keys(LAYERS).find((l) => path.startsWith(`${l}/`))

/** What a file imports, types and dynamic imports included. */
function importsOf(path: string): string[] {
  const found = codeOf(path).matchAll(/(?:\bfrom\s*|\bimport\s*\(\s*|^\s*import\s+)(['"])([\w@./:-]+)\1/gmu)
  return [...found].map((m) => m[2] ?? '')
}

const target = (path: string, specifier: string): string =>
  normalize(join(dirname(path), specifier)).replaceAll('\\', '/')

describe('the layers', () => {
  it('are all there, and every source file is in one', () => {
    expect(sources.length).toBeGreaterThan(100)
    expect(sources.filter((p) => layerOf(p) === undefined)).toEqual(['src/main.ts'])
    for (const layer of Object.keys(LAYERS)) expect(sources.some((p) => p.startsWith(`${layer}/`))).toBe(true)
  })

  it('import inward only, each file by its whole name', () => {
    const wrong = sources.flatMap((path) => {
      const layer = layerOf(path)
      return importsOf(path)
        .filter((s) => s.startsWith('.'))
        .flatMap((specifier) => {
          const to = target(path, specifier)
          if (!text.has(to)) return [`${path} imports ${specifier}, which is no file`]
          const other = layerOf(to)
          const allowed =
            other === layer || layer === undefined || (LAYERS[layer] ?? []).includes(other ?? '')
          return allowed ? [] : [`${path} imports ${to}`]
        })
    })
    expect(wrong).toEqual([])
  })

  it('know only the libraries that are theirs', () => {
    const wrong = sources.flatMap((path) =>
      importsOf(path)
        .filter((s) => !s.startsWith('.') && !s.startsWith('node:'))
        .filter((s) => !(LIBRARIES[s.split('/')[0] ?? ''] ?? []).includes(layerOf(path) ?? ''))
        .map((s) => `${path} imports ${s}`),
    )
    expect(wrong).toEqual([])
  })

  it('take zod without methods and whole, so that the bundle does not carry every language of its messages', () => {
    const wrong = sources.filter((path) =>
      /import\s+(?!\*\s+as\s+z\b|type\b)[^'"]*from\s+['"]zod(?!\/v4\/locales\/en\.js)|from\s+['"]zod['"]/u.test(
        codeOf(path),
      ),
    )
    expect(wrong).toEqual([])
  })

  it.each(PURE)('%s has no clock, no chance, no files and no terminal', (layer) => {
    const forbidden =
      /\bMath\.random\b|\bglobalThis\b|\bnew Date\b|\bDate\.now\b|\bprocess\.|\bconsole\.|\bperformance\.|\bset(?:Timeout|Interval|Immediate)\b|\bcrypto\.|['"]node:|\bimport\.meta\b|\brequire\(/u
    const wrong = sources
      .filter((path) => path.startsWith(`${layer}/`))
      .flatMap((path) => {
        const found = forbidden.exec(codeOf(path))
        return found ? [`${path}: ${found[0]}`] : []
      })
    expect(wrong).toEqual([])
  })

  it('leave sentences to the wording: a flow holds none', () => {
    const wrong = sources
      .filter((path) => path.startsWith('flows/'))
      .filter((path) => /['"`][A-Z][a-z]+ [a-z]+ [a-z]+ [a-z]+/u.test(codeOf(path)))
    expect(wrong).toEqual([])
  })

  it('touch the disk in one place only', () => {
    const wrong = sources.filter(
      (path) => importsOf(path).some((s) => /^node:fs/u.test(s)) && !path.startsWith('src/io/'),
    )
    expect(wrong).toEqual([])
  })
})

describe('the files', () => {
  it.each(Object.entries(FOLDERS))('%s has only the folders that were planned', (folder, planned) => {
    const there = readdirSync(join(root, folder), { withFileTypes: true })
      .filter((e) => e.isDirectory())
      .map((e) => e.name)
    expect(there.filter((name) => !planned.includes(name))).toEqual([])
  })

  it('are named after a subject, in small letters with hyphens, and never after a drawer', () => {
    const drawers = /^(?:utils?|helpers?|types?|common|misc|index|shared|lib)\.tsx?$/u
    const wrong = sources.filter((path) => {
      const name = path.slice(path.lastIndexOf('/') + 1)
      return drawers.test(name) || !/^[a-z0-9]+(?:-[a-z0-9]+)*\.tsx?$/u.test(name)
    })
    expect(wrong).toEqual([])
  })

  it('open with what they answer', () => {
    expect(sources.filter((path) => !/^\s*(?:\/\*\*|\/\/)/u.test(textOf(path)))).toEqual([])
  })

  it(`are at most ${LONGEST} lines long, but for those that are listed`, () => {
    const long = sources.filter((path) => textOf(path).trimEnd().split('\n').length > LONGEST)
    expect(long.filter((path) => !LONG.includes(path))).toEqual([])
    // A file that is gone, or has become another, leaves the list.
    expect(LONG.filter((path) => !text.has(path))).toEqual([])
  })

  it('switch nothing off: no rule of the linter, no check of the compiler', () => {
    const wrong = [...sources, ...filesUnder('tests')].filter((path) => {
      if (path === relative(root, fileURLToPath(import.meta.url)).replaceAll('\\', '/')) return false
      const all = readFileSync(join(root, path), 'utf8')
      return /biome-ignore|@ts-(?:ignore|nocheck|expect-error)|\bas any\b/u.test(all)
    })
    expect(wrong).toEqual([])
  })
})
