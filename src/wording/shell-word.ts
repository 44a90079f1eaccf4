/** A path as a shell takes it: in single quotes where it has anything but plain characters. */
export const shellWord = (text: string): string =>
  /^[\w./:=@%+-]+$/.test(text) && !text.startsWith('-') ? text : `'${text.replaceAll("'", "'\\''")}'`
