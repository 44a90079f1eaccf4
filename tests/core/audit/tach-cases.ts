/** Tach: none, two, the wrong kind, the wrong count. */
import { build } from '../../support/build.ts'
import { motor, oneFan, onSplitter, type RuleCase, rule } from './rule-case.ts'

export const tachCases: readonly RuleCase[] = [
  rule('tach-joined', 'a splitter that joins two tach wires, against one that returns the first', (bad) =>
    onSplitter(2, {}, {}, { tach_from: bad ? 'all' : 1 }),
  ),
  rule('tach-missing', 'a splitter that returns no tach, against one that returns the first', (bad) =>
    onSplitter(2, {}, {}, { tach_from: bad ? 'none' : 1 }),
  ),
  rule('tach-way-empty', 'a splitter whose tach way is empty, against its other way', (bad) =>
    build()
      .header('SYS1')
      .plainFan('F1')
      .part('Y1', { kind: 'fan-splitter', ways: 2, tach_from: bad ? 1 : 2 })
      .lead('F1.motor', 'Y1.2')
      .lead('Y1.in', 'board.SYS1'),
  ),
  rule('tach-level', 'a fan with a lock signal, against one with pulses', (bad) =>
    oneFan({}, motor({ pins: 3, tach: bad ? 'level' : 'pulses' })),
  ),
  rule('tach-none', 'a fan of two wires, against three', (bad) => oneFan({}, motor({ pins: bad ? 2 : 3 }))),
  rule('pulses-mismatch', 'four pulses counted as two, against four', (bad) =>
    oneFan({}, motor({ pulses: 4 })).set('SYS1', { pulses: bad ? 2 : 4 }),
  ),
  rule('tach-unseen', 'two fans behind one reading, against one', (bad) => onSplitter(bad ? 2 : 1, {})),
  rule('tach-elsewhere', 'a fan on the supply whose tach lead hangs loose, against on a header', (bad) => {
    const made = build()
      .supply('PA', { kind: 'peripheral' })
      .header('SYS1')
      .plainFan('F1', motor({ feed: 'peripheral' }))
      .lead('F1.power', 'supply.PA.1')
    return bad ? made : made.lead('F1.motor', 'board.SYS1')
  }),
]
