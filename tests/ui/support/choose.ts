/** A little program for the pseudo-terminal tests: a menu, and what was taken printed after it. */
import { chooseSymptom } from '../../../src/ui/chooser.tsx'
import { english } from '../../../src/wording/en/english.ts'

const ids = ['lights-dark', 'fan-still', 'zero-rpm', 'lights-stuck', 'lights-order', 'wrong-colours']
const more = ['global-effect', 'not-listed', 'fans-full', 'odd-reading', 'fans-hunting', 'alarm', 'all-dead']
const { id, code } = await chooseSymptom([...ids, ...more], {
  language: english,
  ascii: false,
  stdout: process.stdout,
  stdin: process.stdin,
})
process.stdout.write(`taken: ${id ?? 'nothing'}\n`)
process.exitCode = code
