// Loads a source module for a measurement: bundled on the fly, so no built program is needed and none can be stale.
import { mkdir, mkdtemp, rm } from 'node:fs/promises'
import { join } from 'node:path'
import { fileURLToPath, pathToFileURL } from 'node:url'
import { build } from 'esbuild'

const root = fileURLToPath(new URL('../../', import.meta.url))

/** The module at `path`, given from the root of the project (`src/core/…/x.ts`). */
export async function load(path) {
  // Inside the project, so that what stays outside of the bundle is found.
  const cache = join(root, 'node_modules', '.cache')
  await mkdir(cache, { recursive: true })
  const folder = await mkdtemp(join(cache, 'whichlead-bench-'))
  try {
    const outfile = join(folder, 'module.mjs')
    await build({
      entryPoints: [join(root, path)],
      outfile,
      bundle: true,
      platform: 'node',
      format: 'esm',
      target: 'node20',
      logLevel: 'error',
      external: ['@lydell/node-pty', 'esbuild'],
      // The YAML library asks for Node's own modules in the old way.
      banner: {
        js: "import { createRequire as __cr } from 'node:module'; const require = __cr(import.meta.url);",
      },
      define: { 'process.env.NODE_ENV': '"production"' },
    })
    return await import(pathToFileURL(outfile).href)
  } finally {
    await rm(folder, { recursive: true, force: true })
  }
}
