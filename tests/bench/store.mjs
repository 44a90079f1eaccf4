// A store with a million jobs: how fast it fills, how soon jobs are found, what learning costs at the start of a job.
//   node tests/bench/store.mjs [--jobs N] [--writers N] [--short-logs] [--loaded ADDRESS]
// Starts a PostgreSQL server of its own in a temporary folder; a million jobs take some 10 GB there while it runs.
import { load } from './load.mjs'

const argv = process.argv.slice(2)
const option = (name, usual) => Number(argv.includes(name) ? argv[argv.indexOf(name) + 1] : usual)
const jobs = option('--jobs', '1000000')
const writers = option('--writers', '2')
const short = argv.includes('--short-logs')
const BATCH = 1000

const sim = await load('tests/bench/store.ts')
const { seeded } = await load('tests/bench/accuracy.ts')
const loaded = argv.includes('--loaded') ? argv[argv.indexOf('--loaded') + 1] : undefined
const server = await sim.startPostgres({
  settings: [
    'shared_buffers=512MB',
    'max_wal_size=8GB',
    'maintenance_work_mem=256MB',
    'gin_pending_list_limit=64MB',
  ],
})
const url = loaded ?? (await server.database())
const given = (kept) => {
  if (!kept.ok) throw new Error(JSON.stringify(kept.trouble))
  return kept
}
const open = async () => given(await sim.openShared(url, { program: 'bench', patient: true })).history
const seconds = (from) => (performance.now() - from) / 1000

async function fill(tally) {
  const benches = await Promise.all(Array.from({ length: writers }, open))
  let next = 0
  let told = 0
  const began = performance.now()
  const work = async (bench) => {
    for (let from = next; from < jobs; from = next) {
      next = from + BATCH
      const batch = Array.from({ length: Math.min(BATCH, jobs - from) }, (_, i) =>
        sim.jobNumber(from + i, jobs, tally, short),
      )
      const { handed } = given(await bench.put(batch))
      if (handed.taken !== batch.length) throw new Error(`${handed.taken} of ${batch.length} taken`)
      told += batch.length
      if (told % 100_000 < BATCH) console.log(`    ${told} jobs after ${seconds(began).toFixed(0)} s`)
    }
  }
  await Promise.all(benches.map(work))
  const took = seconds(began)
  await Promise.all(benches.map((bench) => bench.close()))
  return took
}

const at = (list, q) =>
  [...list].sort((a, b) => a - b)[Math.min(list.length - 1, Math.floor(list.length * q))]

try {
  const tally = sim.emptyTally()
  const [{ version }] = await server.sql(url, "SELECT current_setting('server_version') AS version")
  console.log(`PostgreSQL ${version}, ${jobs} jobs, logs of ${sim.logBytes(short)} bytes, ${writers} writers`)
  if (loaded === undefined) {
    const took = await fill(tally)
    console.log(`loaded in ${took.toFixed(0)} s: ${Math.round(jobs / took)} jobs a second`)
  } else for (let n = 0; n < jobs; n++) sim.jobNumber(n, jobs, tally)
  // As the server does by itself after a while.
  if (loaded === undefined) await server.sql(url, 'VACUUM ANALYZE')
  const [{ size }] = await server.sql(
    url,
    'SELECT pg_size_pretty(pg_database_size(current_database())) AS size',
  )
  console.log(`on the disk: ${size}`)

  const bench = await open()
  const chance = seeded(7)
  const some = (n) => Math.floor(chance() * n)
  const day = (n) => new Date(sim.FIRST_DAY + n * 24 * 3600_000).toISOString()
  const period = (days) => {
    const from = some(sim.DAYS - days)
    return { from: day(from), to: day(from + days) }
  }
  const mode = () => sim.MODES[some(sim.MODES.length)]
  const kinds = {
    'the newest 200': () => ({}),
    'by part': () => ({ part: sim.partName(some(sim.PARTS)) }),
    'by cause': () => ({ cause: mode() }),
    'by build': () => ({ build: sim.buildName(some(sim.BUILDS)) }),
    'by date, a week': () => period(7),
    'by part, cause and a month': () => ({
      part: sim.partName(some(sim.PARTS)),
      cause: mode(),
      ...period(30),
    }),
    'by words, a build and a cause': () => ({ words: `${sim.buildName(some(300)).toLowerCase()} ${mode()}` }),
    'open jobs': () => ({ outcome: 'open' }),
  }
  for (const [name, query] of Object.entries(kinds)) {
    const times = []
    let found = 0
    for (let i = 0; i < 200; i++) {
      const asked = { ...query(), limit: 200 }
      const began = performance.now()
      found += given(await bench.find(asked)).found.jobs.length
      times.push(performance.now() - began)
    }
    console.log(
      `find ${name}: median ${at(times, 0.5).toFixed(1)} ms, p95 ${at(times, 0.95).toFixed(1)} ms, ${(found / 200).toFixed(0)} jobs each`,
    )
  }

  const learning = []
  let taught
  for (let i = 0; i < 50; i++) {
    const began = performance.now()
    taught = given(await bench.taught()).taught
    learning.push(performance.now() - began)
  }
  console.log(
    `learning: median ${at(learning, 0.5).toFixed(1)} ms, p95 ${at(learning, 0.95).toFixed(1)} ms, from ${taught.counts.jobs} jobs of the last year, ${taught.counts.classes.size} classes`,
  )
  const sums = []
  for (let i = 0; i < 20; i++) {
    const began = performance.now()
    await bench.sums(period(30))
    sums.push(performance.now() - began)
  }
  console.log(`sums of a month: median ${at(sums, 0.5).toFixed(0)} ms, p95 ${at(sums, 0.95).toFixed(0)} ms`)
  const one = []
  for (let i = 0; i < 100; i++) {
    const job = sim.jobNumber(jobs + i, jobs, sim.emptyTally())
    const began = performance.now()
    given(await bench.put([job]))
    one.push(performance.now() - began)
  }
  console.log(`one job handed in: median ${at(one, 0.5).toFixed(1)} ms, p95 ${at(one, 0.95).toFixed(1)} ms`)

  // What was found must be what was drawn; else the times mean nothing. The hundred from above were drawn later.
  const later = sim.emptyTally()
  for (let i = 0; i < one.length; i++) sim.jobNumber(jobs + i, jobs, later)
  const flaws = []
  const is = (name, found, of) => {
    const drawn = of(tally) + of(later)
    if (found !== drawn) flaws.push(`${name}: ${found} found, ${drawn} drawn`)
  }
  const countOf = async (query) => given(await bench.sums(query)).sums.jobs
  for (const n of [0, 11, sim.PARTS - 1]) {
    const part = sim.partName(n)
    is(part, await countOf({ part }), (t) => t.byPart.get(part) ?? 0)
  }
  for (const n of [17, 900, 11_000]) {
    const build = sim.buildName(n)
    is(build, await countOf({ build }), (t) => t.byBuild.get(build) ?? 0)
    is(build, await countOf({ words: build }), (t) => t.byBuild.get(build) ?? 0)
  }
  is('seized', await countOf({ cause: 'seized' }), (t) => t.byMode.get('seized') ?? 0)
  is('a day', await countOf({ from: day(600), to: day(601) }), (t) => t.byDay.get(600) ?? 0)
  const [learnt] = await server.sql(url, 'SELECT sum(jobs)::int AS jobs FROM whichlead.learnt_jobs')
  is('jobs that taught', learnt.jobs, (t) => t.taught)
  console.log(flaws.length === 0 ? 'checked against what was drawn: no flaws' : flaws.join('\n'))
  if (flaws.length > 0) process.exitCode = 1
  await bench.close()
} finally {
  await server.remove()
}
