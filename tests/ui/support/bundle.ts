/** One file out of a test's own little program, made the way the shipped one is made. */
import { mkdtemp, rm } from 'node:fs/promises'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import { fileURLToPath } from 'node:url'
import { build, type Plugin } from 'esbuild'

const here = (path: string): string => fileURLToPath(new URL(path, import.meta.url))

/** Ink's door to its developer tools, which no test goes through. */
const withoutDevTools: Plugin = {
  name: 'without-dev-tools',
  setup({ onResolve, onLoad }) {
    onResolve({ filter: /^(?:react-devtools-core|ws)$/ }, ({ path }) => ({ path, namespace: 'none' }))
    onLoad({ filter: /./, namespace: 'none' }, () => ({
      contents: 'export default { initialize() {}, connectToDevTools() {} }',
    }))
  },
}

export interface Bundle {
  readonly file: string
  readonly folder: string
  readonly remove: () => Promise<void>
}

/** @param entry file name in this folder */
export async function bundle(entry: string): Promise<Bundle> {
  const folder = await mkdtemp(join(tmpdir(), 'whichlead-ui-'))
  const file = join(folder, 'program.mjs')
  await build({
    entryPoints: [here(`./${entry}`)],
    outfile: file,
    bundle: true,
    platform: 'node',
    format: 'esm',
    target: 'node20',
    jsx: 'automatic',
    logLevel: 'error',
    define: { 'process.env.NODE_ENV': '"production"' },
    plugins: [withoutDevTools],
    banner: {
      js: "import { createRequire as __cr } from 'node:module'; const require = __cr(import.meta.url);",
    },
  })
  return { file, folder, remove: () => rm(folder, { recursive: true, force: true }) }
}
