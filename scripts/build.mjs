// Makes the one file that is shipped: dist/whichlead.mjs, or another with --out FILE.
import { chmod, mkdir, readFile, rename, writeFile } from 'node:fs/promises'
import { dirname, resolve } from 'node:path'
import { fileURLToPath } from 'node:url'
import { packed } from './pack.mjs'

const here = (path) => fileURLToPath(new URL(path, import.meta.url))
const { version } = JSON.parse(await readFile(here('../package.json'), 'utf8'))

const options = {
  minify: true,
  platform: 'node',
  target: 'node20',
  jsx: 'automatic',
  legalComments: 'none',
  logLevel: 'warning',
  define: {
    'process.env.NODE_ENV': '"production"',
    WHICHLEAD_VERSION: JSON.stringify(version),
    // Where there is one the layout engine, which lies in the program, is got through it, and Node loads all it has for
    // the network: 10 MB.
    fetch: 'undefined',
  },
  alias: {
    'is-in-ci': here('./stub-is-in-ci.mjs'),
    'yoga-layout': here('./stub-yoga.mjs'),
    'string-width': here('./stub-string-width.mjs'),
    yaml: here('./stub-yaml.mjs'),
  },
}

const argument = process.argv.indexOf('--out')
const out = argument < 0 ? here('../dist/whichlead.mjs') : resolve(process.argv[argument + 1])
const { text, sizes } = await packed(options, here('../src/main.ts'), here('../src/cli/start.ts'))
await mkdir(dirname(out), { recursive: true })
// Whole or not at all: somebody may be running it.
const beside = `${out}.${process.pid}`
await writeFile(beside, text)
await chmod(beside, 0o755)
await rename(beside, out)
if (process.argv.includes('--sizes')) console.table([...sizes, { group: 'file', packed: text.length }])
