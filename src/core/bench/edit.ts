/**
 * What a pair of hands can do to a build, in the words that questions, repairs and the line protocol share.
 * `unplug`, `plug` and `swap` name plugs; a new joint is a healthy one.
 */
import type { PartId } from '../plan/part.ts'
import type { PortRef } from '../plan/plan.ts'

export type Edit =
  | { readonly do: 'power'; readonly to: 'on' | 'off' }
  | { readonly do: 'unplug'; readonly plug: PortRef }
  | { readonly do: 'plug'; readonly plug: PortRef; readonly socket: PortRef }
  | { readonly do: 'swap'; readonly a: PortRef; readonly b: PortRef }
  | { readonly do: 'reseat'; readonly plug: PortRef }
  /** A part, or the lead that a port names. */
  | { readonly do: 'substitute'; readonly what: PartId | PortRef }
  | { readonly do: 'free'; readonly part: PartId }
  | { readonly do: 'set'; readonly setting: string; readonly value: string }

/** Whether the mains are on after these edits. */
export const powerAfter = (history: readonly Edit[]): 'on' | 'off' =>
  history.findLast((edit) => edit.do === 'power')?.to ?? 'on'

/** `swap F2.motor F3.motor`: the form of the line protocol and of `--edit`. */
export function editText(edit: Edit): string {
  switch (edit.do) {
    case 'power':
      return `power ${edit.to}`
    case 'unplug':
      return `unplug ${edit.plug}`
    case 'plug':
      return `plug ${edit.plug} -> ${edit.socket}`
    case 'swap':
      return `swap ${edit.a} ${edit.b}`
    case 'reseat':
      return `reseat ${edit.plug}`
    case 'substitute':
      return `substitute ${edit.what}`
    case 'free':
      return `free ${edit.part}`
    case 'set':
      return `set ${edit.setting} = ${edit.value}`
  }
}

const forms: readonly [RegExp, (m: readonly string[]) => Edit][] = [
  [/^power (on|off)$/, (m) => ({ do: 'power', to: m[1] as 'on' | 'off' })],
  [/^unplug (\S+)$/, (m) => ({ do: 'unplug', plug: m[1] as string })],
  [/^plug (\S+) -> (\S+)$/, (m) => ({ do: 'plug', plug: m[1] as string, socket: m[2] as string })],
  [/^swap (\S+) (\S+)$/, (m) => ({ do: 'swap', a: m[1] as string, b: m[2] as string })],
  [/^reseat (\S+)$/, (m) => ({ do: 'reseat', plug: m[1] as string })],
  [/^substitute (\S+)$/, (m) => ({ do: 'substitute', what: m[1] as string })],
  [/^free (\S+)$/, (m) => ({ do: 'free', part: m[1] as string })],
  [/^set (\S+) = (.+)$/, (m) => ({ do: 'set', setting: m[1] as string, value: m[2] as string })],
]

/** Reads `editText`'s form; undefined where it is none of them. */
export function parseEdit(text: string): Edit | undefined {
  const line = text.trim().replace(/\s+/g, ' ')
  for (const [form, make] of forms) {
    const match = form.exec(line)
    if (match) return make(match)
  }
  return undefined
}
