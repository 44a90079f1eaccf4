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

/**
 * A screen sits on a bench for hours, on a small machine perhaps. Left alone, the garbage of every answer is kept until a
 * good part of the machine's memory would be full. So: space for new things is not doubled as it fills, and the heap may
 * grow by this share before all of it is swept; then what is left is moved together, so that pages become free; and code
 * is either interpreted or optimised, without the stage between, whose code takes 4 MB. It costs a quarter and a tenth of
 * the processor time of an answer; moving together, with V8's own settings for little memory, costs none that could be
 * measured and saves 4 MB.
 */
const KEEP_SMALL = [
  '--semi-space-growth-factor=1',
  '--heap-growing-percent=20',
  '--compact-on-every-full-gc',
  '--optimize-for-size',
  '--no-sparkplug',
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
  const flags = [...(OPTIMISE_LATER[major] ?? []), ...(screenWanted(argv, terminal) ? KEEP_SMALL : [])]
  for (const flag of flags) setFlag(flag)
}
