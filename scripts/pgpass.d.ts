/** The one function that is used of it; the package brings no types. */
declare module 'pgpass' {
  export default function pgpass(
    of: { host: string; port: number; database: string; user: string },
    then: (password: string | undefined) => void,
  ): void
}
