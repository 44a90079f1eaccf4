// Does a whole job over the line protocol: asks the person at the terminal, or takes the answers from a file.
//   node drive-a-job.mjs PLAN SYMPTOM [ANSWERS]
// ANSWERS holds one line for each thing asked: a number, numbers with blanks between, "none", "done", "unsure",
// "cannot", or a whole line of the protocol. WHICHLEAD names the program, where it is not on the path.
import { spawn } from 'node:child_process'
import { readFileSync } from 'node:fs'
import { createInterface } from 'node:readline'

const [plan, symptom, answersFile] = process.argv.slice(2)
if (!plan || !symptom) {
  console.error('Usage: node drive-a-job.mjs PLAN SYMPTOM [ANSWERS]')
  process.exit(2)
}
const program = process.env.WHICHLEAD ?? 'whichlead'
const [command, before] = program.endsWith('.mjs') ? [process.execPath, [program]] : [program, []]
const tool = spawn(command, [...before, 'diagnose', plan, '--symptom', symptom, '--lines'], {
  stdio: ['pipe', 'pipe', 'inherit'],
})
tool.on('error', (error) => {
  console.error(`${program} cannot be started: ${error.message}`)
  process.exit(2)
})

// One line at a time, from the person or from the file.
const source = answersFile ? readFileSync(answersFile, 'utf8').split('\n').values() : undefined
const terminal = source ? undefined : createInterface({ input: process.stdin })[Symbol.asyncIterator]()
const nextAnswer = async () => {
  process.stdout.write('> ')
  const { value, done } = source ? source.next() : await terminal.next()
  if (source && !done) console.log(value)
  return done ? undefined : value.trim()
}

/** What the person typed, as a line of the protocol for what is asked. */
function replyTo(asked, typed) {
  if (typed === undefined) return { leave: true }
  if (typed.startsWith('{')) return JSON.parse(typed)
  if (typed === 'unsure' || typed === 'cannot' || typed === 'undo' || typed === 'why')
    return { [typed]: true }
  if (asked.type === 'do') return typed === 'done' ? { done: true } : undefined
  const ids = typed === 'none' ? [] : typed.split(/\s+/).map((n) => asked.answers[Number(n) - 1]?.id)
  if (ids.includes(undefined)) return undefined
  return asked.many ? { answers: ids } : ids.length === 1 ? { answer: ids[0] } : undefined
}

let asked
for await (const text of createInterface({ input: tool.stdout })) {
  const line = JSON.parse(text)
  if (line.text) console.log(line.text)
  if (line.type === 'ask')
    for (const [i, { text: answer }] of line.answers.entries()) console.log(`  ${i + 1}. ${answer}`)
  if (line.type === 'do') console.log('  (done, cannot)')
  if (line.type === 'ask' || line.type === 'do') asked = line
  // After these a reply is wanted: a new question, or the old one that still stands.
  if (!asked || !['ask', 'do', 'problem', 'why'].includes(line.type)) continue
  let reply = replyTo(asked, await nextAnswer())
  while (reply === undefined) {
    console.log('That is none of the answers.')
    reply = replyTo(asked, await nextAnswer())
  }
  tool.stdin.write(`${JSON.stringify(reply)}\n`)
}
process.exit(
  await new Promise((resolve) =>
    tool.exitCode === null ? tool.on('close', resolve) : resolve(tool.exitCode),
  ),
)
