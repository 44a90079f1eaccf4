/** Places on the drawn run of a lead, in as few words as leave no code to be guessed. */
import type { Scene } from '../language.ts'
import { headerKind, refName, splitRef } from './names.ts'

/** `SA.1` of the supply, `U1.a` of the board: the words that stand beside the part's own box. */
export function pathTag(ref: string, scene: Scene): string {
  const { part, port } = splitRef(ref)
  const [lead, plug] = port.split('.')
  if (part === 'supply') return plug ? `lead ${lead} plug ${plug}` : `lead ${lead}`
  if (part === 'board') {
    const header = `${headerKind(port, scene)} ${lead}`.trim()
    return plug ? `${header} row ${plug}` : header
  }
  return port.replace(/^(fan|light|out)_?(\d+)$/, '$1 $2').replace(/_/g, ' ')
}

/** The same where its part does not stand beside it. */
export const pathName = (ref: string, scene: Scene): string => {
  const { part } = splitRef(ref)
  return part === 'supply' || part === 'board' ? `${part} ${pathTag(ref, scene)}` : refName(ref, scene)
}
