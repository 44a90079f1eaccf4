/** What is used of the solver, which brings no types of its own. */
declare module 'logic-solver' {
  /** A variable's name, with `-` before it for "not", or what the functions below give. */
  type Formula = string | { readonly formula?: never }
  interface Solution {
    getTrueVars(): string[]
  }
  const Logic: {
    readonly Solver: new () => {
      require(...formulas: Formula[]): void
      solve(): Solution | null
    }
    or(...operands: Formula[]): Formula
    and(...operands: Formula[]): Formula
    xor(...operands: Formula[]): Formula
    equiv(a: Formula, b: Formula): Formula
    implies(a: Formula, b: Formula): Formula
    sum(...operands: Formula[]): Formula
    constantBits(whole: number): Formula
    lessThanOrEqual(a: Formula, b: Formula): Formula
  }
  export default Logic
}
