/** SARIF against its published schema (2.1.0), by a general validator. */
import { readFileSync } from 'node:fs'
import { Ajv } from 'ajv'
import { describe, expect, test } from 'vitest'
import { audit } from '../../src/core/audit/audit.ts'
import { findingWords } from '../../src/wording/en/findings.ts'
import { sarifOf, sarifOfProblems } from '../../src/wording/sarif.ts'
import { ruleCases } from '../core/audit/all-cases.ts'
import { build } from '../support/build.ts'

const {
  $schema: _draft,
  id: _id,
  ...schema
} = JSON.parse(readFileSync(new URL('../fixtures/sarif-2.1.0.schema.json', import.meta.url), 'utf8'))
const validate = new Ajv({
  strict: false,
  validateFormats: false,
  allErrors: true,
  unicodeRegExp: false,
}).compile(schema)

const valid = (log: unknown) => {
  const ok = validate(log)
  expect(validate.errors ?? []).toEqual([])
  expect(ok).toBe(true)
}

describe('SARIF 2.1.0', () => {
  test('the log of every rule’s finding is valid', () => {
    const findings = ruleCases.flatMap(({ make }) => audit(make(true).plan()))
    expect(findings.length).toBeGreaterThan(100)
    valid(sarifOf(findings, findingWords, '0.1.0'))
  })

  test('an empty log and one of a plan that cannot be read are valid', () => {
    valid(sarifOf([], findingWords, '0.1.0'))
    const read = build().header('SYS1').plainFan('F1').lead('F1.motor', 'board.NONE').read()
    valid(sarifOfProblems(read.ok ? [] : read.problems, '0.1.0'))
  })

  test('the validator refuses a log without its version and a result without a message', () => {
    const log = sarifOf([], findingWords, '0.1.0') as { version?: string; runs: { results: unknown[] }[] }
    expect(validate({ ...log, version: undefined })).toBe(false)
    expect(validate({ ...log, runs: [{ ...log.runs[0], results: [{ ruleId: 'x' }] }] })).toBe(false)
  })
})
