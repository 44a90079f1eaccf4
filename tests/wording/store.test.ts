/** Every trouble with a store is said: what, where, what to do; with no holes. */
import { expect, test } from 'vitest'
import type { StoreTrouble } from '../../src/job/history/history.ts'
import { storeWords } from '../../src/wording/en/store.ts'

const codes: readonly StoreTrouble['code'][] = [
  'bad-address',
  'no-such-host',
  'refused',
  'unreachable',
  'lost',
  'wrong-password',
  'not-let-in',
  'no-such-database',
  'no-rights',
  'tls',
  'server-too-old',
  'newer-schema',
  'older-schema',
  'read-only',
  'busy',
  'full',
  'failed',
  'no-permission',
  'disk-full',
]

test.each(codes)('%s', (code) => {
  const facts = { why: 'form', version: '11.2', needed: 13, found: 7, known: 3, said: 'so \u001b[31mit is' }
  const text = storeWords.trouble({ code, where: 'server:5432/history', facts })
  expect(text).toMatch(/^The store server:5432\/history: .{8,}\. [A-Z0-9].{8,}$/)
  expect(text).not.toMatch(/undefined|\[object/)
  expect(text).not.toContain('\u001b')
  expect(storeWords.goingOn({ code, where: '', facts }).split('\n')).toHaveLength(1)
})
