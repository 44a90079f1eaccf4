// Writes docs/flows.md anew from the machines and what exploring them found; part of `npm run docs`.
import { writeFile } from 'node:fs/promises'
import { fileURLToPath } from 'node:url'
import { load } from '../tests/bench/load.mjs'

const { page } = await load('scripts/flows-page.ts')
await writeFile(fileURLToPath(new URL('../docs/flows.md', import.meta.url)), page())
console.log('docs/flows.md')
