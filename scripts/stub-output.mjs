// Ink lays each cell of the screen out as an object of its own and joins them again for every frame, which was half of what a
// frame costs. On the screens here texts stand below and beside each other, never over another: their rows can be joined
// as they are. `tests/ui/text/output.test.ts` holds that both show the same.
import stripAnsi from 'strip-ansi'
import { width } from '../src/ui/text/width.ts'

export default class Output {
  #rows

  constructor({ height }) {
    this.#rows = Array.from({ length: height }, () => '')
  }

  write(x, y, text, { transformers }) {
    text.split('\n').forEach((line, i) => {
      const left = this.#rows[y + i]
      if (left === undefined) return
      const gap = ' '.repeat(Math.max(0, x - width(stripAnsi(left))))
      this.#rows[y + i] = left + gap + transformers.reduce((said, look) => look(said, i), line)
    })
  }

  get() {
    return { output: this.#rows.map((row) => row.trimEnd()).join('\n'), height: this.#rows.length }
  }
}
