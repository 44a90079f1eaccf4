// Makes the one file that is shipped: dist/whichlead.mjs.
import { chmod, readFile } from 'node:fs/promises'
import { fileURLToPath } from 'node:url'
import { build } from 'esbuild'

const here = (path) => fileURLToPath(new URL(path, import.meta.url))
const { version } = JSON.parse(await readFile(here('../package.json'), 'utf8'))

await build({
  entryPoints: [here('../src/main.ts')],
  outfile: here('../dist/whichlead.mjs'),
  bundle: true,
  minify: true,
  platform: 'node',
  format: 'esm',
  target: 'node20',
  jsx: 'automatic',
  legalComments: 'none',
  logLevel: 'warning',
  define: { 'process.env.NODE_ENV': '"production"', WHICHLEAD_VERSION: JSON.stringify(version) },
  alias: {
    'react-devtools-core': here('./stub-devtools.mjs'),
    ws: here('./stub-ws.mjs'),
    'is-in-ci': here('./stub-is-in-ci.mjs'),
  },
  banner: {
    js: "#!/usr/bin/env node\nimport { createRequire as __cr } from 'node:module'; const require = __cr(import.meta.url);",
  },
})
await chmod(here('../dist/whichlead.mjs'), 0o755)
