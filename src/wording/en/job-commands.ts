/** Help of the commands that begin a job: the options that they share, and the first boot. */
import type { CommandText } from '../program.ts'

export const STORE =
  'hand the job in to this store and learn from all benches that share it (WHICHLEAD_STORE); "" for none'

/** Of a job that begins. */
export const jobOptions = {
  log: 'write the job log to this file',
  readings:
    'take what another tool printed: a file, live (this machine), clipboard, or - for the pipe; may be given more than once',
  'no-learning': 'take no account of what closed jobs taught',
  as: 'which name in a reading is which place, such as fan1=SYS1 or 1209:0001=H1, where the plan does not say; may be given more than once',
  store: STORE,
  who: 'who is at the bench, for log and report; signs a first boot',
  where: 'where that is, for log and report',
  fold: 'leave out why, and what it means if not, on a first boot; f or "fold" does it on the way',
  plain: 'line by line, for screen readers and pipes',
  lines: 'JSON, one object a line, for other programs',
  ascii: 'no characters beyond ASCII in drawings',
} as const

export const firstBoot: CommandText = {
  summary: 'Walk the first power-on of a build, step by step',
  about: [
    'Made from the wiring plan: every lead before power; what must turn and light, and within how many seconds; the',
    'settings of firmware and lighting program one by one; a soak, a cold start, and a signature. Each step says what',
    'to do, what to expect, why, and what it means if not. Whatever is not as expected opens the search for its cause',
    'with all that was seen, and the walk goes on from there.',
  ],
  options: jobOptions,
  examples: [
    ['whichlead first-boot studio.build.yaml', 'from the first lead to the signature'],
    ['whichlead first-boot studio.build.yaml --fold', 'for whoever has done it often'],
  ],
}
