/** The page of all audit rules, made from the rules themselves and their words. */
import { families } from '../core/audit/rules.ts'
import { type FindingWords, wordsOf } from './findings.ts'

const cell = (text: string): string => text.replaceAll('|', '\\|').replace(/\s+/g, ' ')

/** Markdown: a table a family. */
export function rulesPage(words: FindingWords): string {
  const { heads, page } = words
  const count = families.reduce((sum, family) => sum + family.rules.length, 0)
  const lines = [
    `# ${page.title}`,
    '',
    ...page.about.flatMap((text) => [text, '']),
    `${count}`.concat(' rules.'),
    '',
  ]
  for (const { family, rules } of families) {
    lines.push(`## ${words.families[family] ?? family}`, '')
    lines.push(
      `| ${heads.rule} | | ${heads.severity} | ${heads.limit} | ${heads.source} |`,
      '| --- | --- | --- | --- | --- |',
    )
    for (const rule of rules) {
      const { title, limit } = wordsOf(words, rule.id)
      lines.push(
        `| \`${rule.id}\` | ${cell(title)} | ${words.severity[rule.severity]} | ${cell(limit)} | ${cell(rule.source)} |`,
      )
    }
    lines.push('')
  }
  return `${lines.join('\n').trimEnd()}\n`
}
