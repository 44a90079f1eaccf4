/** The pictures of the terminal that stand in the pages: how one is drawn, and that those that are there are whole. */
import { readdirSync, readFileSync } from 'node:fs'
import { fileURLToPath } from 'node:url'
import { describe, expect, it } from 'vitest'
import { picture } from '../../scripts/picture.ts'
import { emulatedScreen } from '../support/screen.ts'

const folder = fileURLToPath(new URL('../../docs/pictures/', import.meta.url))

describe('a picture of the terminal', () => {
  it('has each run of cells at its column, in its look, and letters that mean something to SVG escaped', async () => {
    const screen = emulatedScreen(20, 3)
    await screen.feed('\u001b[1mF3 <top>\u001b[0m\r\n  \u001b[7m\u25b8 1\u001b[0m')
    const svg = picture(screen.runs(), 20, 'a & b')
    expect(svg).toContain('<title>a &amp; b</title>')
    expect(svg).toMatch(/<text class="b" x="14" y="[\d.]+" textLength="67.2"[^>]*>F3 &lt;top&gt;<\/text>/u)
    // Two cells in, on a box of its own three cells wide.
    expect(svg).toMatch(/<rect class="box" x="30.8" y="32" width="25.2" height="18"\/>/u)
    screen.dispose()
  })

  it('gives a wide character two cells', async () => {
    const screen = emulatedScreen(20, 2)
    await screen.feed('\u524d F1')
    expect(picture(screen.runs(), 20, '')).toContain('textLength="42"')
    screen.dispose()
  })

  it.each(readdirSync(folder))('%s is whole and tells no path of a machine', (name) => {
    const svg = readFileSync(`${folder}${name}`, 'utf8')
    expect(svg.startsWith('<svg ')).toBe(true)
    expect(svg.trimEnd().endsWith('</svg>')).toBe(true)
    expect(svg).toContain('POWER O')
    expect(svg).not.toMatch(/\/(?:tmp|home|root|Users|work)\//u)
  })
})
