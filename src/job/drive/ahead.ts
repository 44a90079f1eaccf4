/**
 * What follows a reply, worked out before it is given: while a person still looks, the reasoning on what they may say
 * can be done. A job is driven from what it is alone, so the same lines follow the reply itself.
 */
import type { Prompt } from '../../core/checks/prompt.ts'
import type { LogBody } from '../log/event.ts'
import { apply } from './apply.ts'
import type { Job } from './job.ts'
import { next } from './next.ts'

/** A reply as the log has it. */
export type Words = Extract<LogBody, { e: 'replied' }>['reply']

/** Replies that are worth it: each answer where there is one to choose; of several marks, that there is none. */
export function likelyReplies(prompt: Prompt): readonly Words[] {
  if (prompt.show === 'do') return ['done']
  if (prompt.many) return [[], 'unsure']
  const ids = 'about' in prompt ? prompt.choices : prompt.answers.map((a) => a.id)
  return [...ids.map((id) => [id]), 'unsure']
}

/**
 * All that follows these lines, up to the next question or the end.
 * @param seq number that the first of the lines will have; without any, the first that follows
 */
export function following(job: Job, lines: readonly LogBody[], seq: number): readonly LogBody[] {
  let line = seq
  // When it will be said is not known, and nothing that follows depends on it.
  const as = (then: Job, body: LogBody): Job => apply(then, { ...body, seq: line++, at: '' })
  let then = lines.reduce(as, job)
  const follows: LogBody[] = []
  for (let bodies = next(then); bodies.length > 0; bodies = next(then)) {
    follows.push(...bodies)
    then = bodies.reduce(as, then)
  }
  return follows
}
