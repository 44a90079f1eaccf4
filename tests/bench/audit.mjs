// The audit of a thousand fans, and against five hundred: near 2 where the work grows with the build, 4 where with its square.
import { load } from './load.mjs'

const { auditTimes } = await load('tests/bench/audit.ts')
const { half, whole } = auditTimes()
console.log(`audit of 1000 fans: ${whole.toFixed(0)} ms, ${(whole / half).toFixed(2)} times that of 500`)
