// Writes docs/rules.md from the rules of the audit and their words; a test fails where the page is out of date.
//
//   node scripts/docs-rules.mjs
import { writeFile } from 'node:fs/promises'
import { fileURLToPath } from 'node:url'
import { build } from 'esbuild'

const here = (path) => fileURLToPath(new URL(path, import.meta.url))

/** Runs a piece of the program's own source and gives back what it exports. */
async function sourceOf(contents) {
  const made = await build({
    stdin: { contents, resolveDir: here('../src'), loader: 'ts' },
    bundle: true,
    write: false,
    format: 'esm',
    platform: 'node',
    target: 'node20',
  })
  return import(`data:text/javascript;base64,${Buffer.from(made.outputFiles[0].text).toString('base64')}`)
}

const { page } = await sourceOf(`
  import { rulesPage } from './wording/rules-page.ts'
  import { findingWords } from './wording/en/findings.ts'
  export const page = rulesPage(findingWords)
`)
await writeFile(here('../docs/rules.md'), page)
