/** The words of the manual page that the help does not have. */
type Pairs = readonly (readonly [term: string, means: string])[]

export interface ManWords {
  readonly name: string
  /** After the program's name, in small letters, without a full stop. */
  readonly short: string
  readonly synopsis: string
  readonly description: string
  readonly about: readonly string[]
  readonly commands: string
  readonly options: string
  readonly exit: string
  readonly environment: string
  readonly variables: Pairs
  readonly files: string
  readonly places: Pairs
}
