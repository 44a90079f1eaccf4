/**
 * Why the screen sets no colours: of the sixteen that terminals have, none can be read on both a light and a dark ground.
 * Contrast as WCAG 2.1 defines it ("relative luminance", "contrast ratio"); success criterion 1.4.3 asks 4.5:1 of text.
 */
import { expect, test } from 'vitest'

type Rgb = readonly [number, number, number]

function luminance(rgb: Rgb): number {
  const [r, g, b] = rgb.map((c) =>
    c / 255 <= 0.03928 ? c / 255 / 12.92 : ((c / 255 + 0.055) / 1.055) ** 2.4,
  ) as [number, number, number]
  return 0.2126 * r + 0.7152 * g + 0.0722 * b
}

function contrast(one: Rgb, other: Rgb): number {
  const [dark = 0, light = 0] = [luminance(one), luminance(other)].sort((a, b) => a - b)
  return (light + 0.05) / (dark + 0.05)
}

const [BLACK, WHITE]: [Rgb, Rgb] = [
  [0, 0, 0],
  [255, 255, 255],
]
const HUES = [1, 2, 3, 4, 5, 6].map((bits): Rgb => [bits & 1, (bits >> 1) & 1, (bits >> 2) & 1])
const shades = (off: number, on: number): Rgb[] =>
  HUES.map(([r, g, b]) => [r, g, b].map((c) => (c ? on : off)) as never)

/** Levels of the usual palettes: the text mode of VGA (with its brown), and those that rest on 205, 187 and 128. */
const PALETTES: Readonly<Record<string, readonly Rgb[]>> = {
  'VGA text': [...shades(0, 170), [170, 85, 0], ...shades(85, 255)],
  'levels of 205': [...shades(0, 205), [0, 0, 238], ...shades(0, 255), [92, 92, 255]],
  'levels of 187': [...shades(0, 187), ...shades(85, 255)],
  'levels of 128': [...shades(0, 128), ...shades(0, 255)],
}

test('the formula gives the ratios that the standard names', () => {
  expect(contrast(BLACK, WHITE)).toBeCloseTo(21, 5)
  expect(contrast(WHITE, WHITE)).toBe(1)
  // Worked by hand: luminance 0.1812, so 1.05 / 0.2312 = 4.54; one step lighter gives 4.48.
  expect(contrast([0x76, 0x76, 0x76], WHITE)).toBeGreaterThan(4.5)
  expect(contrast([0x77, 0x77, 0x77], WHITE)).toBeLessThan(4.5)
})

test.each(Object.entries(PALETTES))('%s: no colour reads on both grounds', (_, colours) => {
  for (const colour of colours)
    expect(Math.min(contrast(colour, BLACK), contrast(colour, WHITE))).toBeLessThan(4.5)
})

test("the terminal's own text reads on its own ground, and inverse as well", () => {
  for (const grey of [170, 192, 229] as const) {
    const text: Rgb = [grey, grey, grey]
    expect(contrast(text, BLACK)).toBeGreaterThan(4.5)
    expect(contrast(BLACK, text)).toBe(contrast(text, BLACK))
  }
  expect(contrast(BLACK, WHITE)).toBeGreaterThan(4.5)
})
