/** What a person typed to hand a reading in: where it is to be had, and which name in it stands for which place. */

export interface HandIn {
  /** A file, `live` or `clipboard`. */
  readonly from: string
  /** `fan1=SYS1`, each as it was typed. */
  readonly as: readonly string[]
}

/** `FILE fan1=SYS1 …`; what has blanks in it may stand in double quotes. Undefined where no file is named. */
export function handInOf(text: string): HandIn | undefined {
  const words = [...text.matchAll(/"([^"]*)"(\S*)|(\S+)/gu)].map((m) => m[3] ?? `${m[1]}${m[2]}`)
  const from = words.find((w) => !w.includes('='))
  return from === undefined ? undefined : { from, as: words.filter((w) => w.includes('=')) }
}
