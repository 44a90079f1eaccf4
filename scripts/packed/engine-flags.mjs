/**
 * How V8 is set up, before anything is compiled: compiled code can only be kept for the flags under which it was made.
 * `tests/bench/start.mjs`, `audit.mjs` and `screen.mjs` measure what these do.
 */

/**
 * Left alone, V8 optimises what a short run calls a few hundred times: more work than it saves, up to a check of a
 * thousand fans. By the first number of Node's version: each has other names for it, and V8 complains of one that it does not know.
 */
const OPTIMISE_LATER = {
  20: ['--interrupt-budget=500000'],
  22: ['--invocation-count-for-turbofan=20000', '--invocation-count-for-maglev=3000'],
  24: ['--invocation-count-for-turbofan=20000', '--invocation-count-for-maglev=3000'],
  26: ['--invocation-count-for-turbofan=20000', '--invocation-count-for-maglev=3000'],
}

/** A regular expression is compiled after so many uses, not after one: in a short run, most are used a few times. */
const COMPILE_EXPRESSIONS_LATER = '--regexp-tier-up-ticks=100'

/** What is new is a megabyte at most: to wake other threads for sorting it out takes longer than doing it. */
const SORT_OUT_ALONE = '--no-parallel-scavenge'

/**
 * A screen sits on a bench for hours, on a small machine perhaps. Left alone, the garbage of every answer is kept until a
 * good part of the machine's memory would be full. So: space for new things is not doubled as it fills, and the heap may
 * grow by this share before all of it is swept; then what is left is moved together, so that pages become free; and simply
 * compiled code that has not run for a while is dropped. Without such code at all 2 MB less are held, and thinking takes
 * a third more work. `--optimize-for-size` saves less than it costs: the first answers take 1.4 times as long, on a hundred
 * fans and more 1.7 times.
 */
const KEEP_SMALL = [
  '--semi-space-growth-factor=1',
  '--heap-growing-percent=20',
  '--compact-on-every-full-gc',
  '--flush-baseline-code',
]

const ON_SCREEN = [undefined, 'diagnose', 'first-boot', 'resume', 'practice']
const NOT_ON_SCREEN = ['--lines', '--plain']

/** Whether a command line most likely ends in a screen; where it does not, little is lost. */
const screenWanted = (argv, terminal) =>
  terminal === true && ON_SCREEN.includes(argv[0]) && !argv.some((word) => NOT_ON_SCREEN.includes(word))

/**
 * @param setFlag as in node:v8   @param argv the words after the program's name
 * @param terminal whether the output is one
 */
export function setUpEngine(setFlag, argv, terminal) {
  const major = process.versions.node.split('.')[0]
  const flags = [
    ...(OPTIMISE_LATER[major] ?? []),
    COMPILE_EXPRESSIONS_LATER,
    SORT_OUT_ALONE,
    ...(screenWanted(argv, terminal) ? KEEP_SMALL : []),
  ]
  for (const flag of flags) setFlag(flag)
}
