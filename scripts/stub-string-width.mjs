// Ink measures text with a library that loads tables for splitting it into characters, 2 MB for good, where the screen
// has its own measure, which needs them for unusual letters only. `tests/ui/text/width.test.ts` holds that both agree.
import stripAnsi from 'strip-ansi'
import { width } from '../src/ui/text/width.ts'

export default (text) => width(stripAnsi(text))
