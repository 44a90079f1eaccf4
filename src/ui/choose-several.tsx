/** A menu of which several rows can be taken at once: what is wrong, where more than one thing is. */
import type { Choice, ChooserOptions } from './chooser.tsx'
import { Menu } from './menu.tsx'
import { type Mounted, mount } from './mount.tsx'
import type { Taking } from './state/menu-marks.ts'

export type TakenSeveral =
  | { readonly ids: readonly string[]; readonly code: 0 }
  | { readonly ids: null; readonly code: number }

export async function chooseSeveral(
  choices: readonly Choice[],
  options: ChooserOptions,
): Promise<TakenSeveral> {
  let ids: readonly string[] | null = null
  const chosen =
    (mounted: Mounted) =>
    (what: NonNullable<Taking['chosen']>): void => {
      if (what === 'suspend') mounted.suspend()
      else if (what === 'redraw') mounted.redraw()
      else if ('take' in what) {
        ids = what.take.flatMap((row) => choices[row]?.id ?? [])
        mounted.end(0)
      } else mounted.end(what.leave === 'interrupt' ? 130 : 0)
    }
  const code = await mount(options, (mounted) => (
    <Menu
      choices={choices}
      title={options.title ?? ''}
      words={options.language.screen}
      how={options.language.screen.choose.several}
      ascii={options.ascii}
      size={mounted.size()}
      onResize={mounted.onResize}
      held={mounted.held}
      onSeveral={chosen(mounted)}
    />
  ))
  return ids === null ? { ids, code } : { ids, code: 0 }
}
