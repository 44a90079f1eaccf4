/** One key as the screen knows it, whatever the terminal sent for it. */
export type Key =
  | { readonly key: 'up' | 'down' | 'left' | 'right' | 'page-up' | 'page-down' | 'home' | 'end' }
  | { readonly key: 'enter' | 'escape' | 'tab' | 'erase' }
  | { readonly key: 'interrupt' | 'suspend' | 'redraw' }
  | { readonly key: 'char'; readonly char: string }
