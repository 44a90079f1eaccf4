/** The version, put in by the build from package.json. */
declare const WHICHLEAD_VERSION: string | undefined

export const version: string = typeof WHICHLEAD_VERSION === 'string' ? WHICHLEAD_VERSION : 'unbuilt'
