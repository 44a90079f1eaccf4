/**
 * A runner for the mutation tester: all tests and what they test in one bundle, run in this process, made afresh for each
 * mutant, the quickest tests first. A mutant costs milliseconds where a runner of test files costs seconds. It knows as much of
 * the test functions as the quick unit tests use: no mocks, no snapshots.
 */
import { appendFileSync, existsSync, readdirSync, readFileSync, statSync, writeFileSync } from 'node:fs'
import { createRequire } from 'node:module'
import { join } from 'node:path'
import { pathToFileURL } from 'node:url'
import vm from 'node:vm'
import { declareFactoryPlugin, PluginKind } from '@stryker-mutator/api/plugin'
import {
  DryRunStatus,
  determineHitLimitReached,
  MutantRunStatus,
  TestStatus,
  toMutantRunResult,
} from '@stryker-mutator/api/test-runner'
import * as esbuild from 'esbuild'
import { collector } from './collect.mjs'

const require = createRequire(import.meta.url)
/** So often may a mutant be passed before it counts as a loop without an end. */
const MOST_HITS = 1e7
const COVERED = /stryCov_9fa48\d*\(((?:"\d+"(?:, )?)+)\)/g

const testsUnder = (path) =>
  statSync(path).isFile()
    ? [path]
    : readdirSync(path, { recursive: true })
        .filter((name) => name.endsWith('.test.ts'))
        .map((name) => join(path, name))

/** Tests and fixtures are found by the place of the file that asks. */
const places = {
  name: 'places',
  setup: (build) =>
    build.onLoad({ filter: /(tests|src|flows)\/.*\.tsx?$/ }, ({ path }) => ({
      contents: readFileSync(path, 'utf8').replaceAll(
        'import.meta.url',
        JSON.stringify(pathToFileURL(path).href),
      ),
      loader: path.endsWith('x') ? 'tsx' : 'ts',
    })),
}

class BundledRunner {
  constructor({ bundled }) {
    this.options = bundled
    globalThis.__stryker__ ??= {}
  }

  capabilities = () => ({ reloadEnvironment: true })

  async init() {
    this.root = process.cwd()
    this.files = this.options.tests.flatMap(testsUnder).sort()
    const made = await esbuild.build({
      stdin: {
        contents: `globalThis.__tests = {${this.files.map((f) => `'${f}': () => require('./${f}')`).join()}}`,
        resolveDir: this.root,
      },
      bundle: true,
      write: false,
      format: 'iife',
      platform: 'node',
      packages: 'external',
      jsx: 'automatic',
      logLevel: 'error',
      plugins: [places],
    })
    // Counting every pass is far too slow in a search: a place is told once a test, then found told by its stamp.
    this.sites = [[]]
    const text = made.outputFiles[0].text.replace(COVERED, (_, ids) => {
      const site = this.sites.push(ids.match(/\d+/g)) - 1
      return `(__seen[${site}] === __seen[0] || __tell(${site}))`
    })
    this.seen = new Int32Array(this.sites.length).fill(-1)
    this.script = new vm.Script(`(function (require, __seen, __tell) {${text}\n})`, { filename: 'tests.js' })
    this.kept = join(this.root, 'covered.json')
    if (existsSync(this.kept)) this.known = JSON.parse(readFileSync(this.kept, 'utf8'))
  }

  /** All modules anew, none of them loaded yet. */
  fresh() {
    const ask = (name) => (name === 'vitest' ? this.collecting.functions : require(name))
    const tell = (site) => {
      this.seen[site] = this.seen[0]
      for (const id of this.sites[site]) this.into.add(id)
    }
    this.script.runInThisContext()(ask, this.seen, tell)
    this.loaders = globalThis.__tests
  }

  load(file) {
    this.collecting = collector(file)
    this.loaders[file]()
    return this.collecting.tests
  }

  async one(test) {
    const began = process.cpuUsage()
    const result = { id: test.id, name: test.id, fileName: test.file, status: TestStatus.Success }
    try {
      await test.run()
    } catch (error) {
      Object.assign(result, {
        status: TestStatus.Failed,
        failureMessage: String(error?.message ?? error).slice(0, 300),
      })
    }
    const { user, system } = process.cpuUsage(began)
    return { ...result, timeSpentMs: (user + system) / 1000 }
  }

  async dryRun() {
    Object.assign(globalThis.__stryker__, {
      activeMutant: undefined,
      hitCount: undefined,
      hitLimit: undefined,
    })
    const known = { times: {}, byTest: {}, byFile: {} }
    const tests = []
    const watch = () => {
      this.into = new Set()
      this.seen[0] = Math.max(0, this.seen[0]) + 1
    }
    for (const file of this.files) {
      watch()
      this.fresh()
      const list = this.load(file)
      known.byFile[file] = [...this.into]
      for (const test of list) {
        watch()
        const result = await this.one(test)
        known.byTest[test.id] = [...this.into]
        known.times[test.id] = result.timeSpentMs
        tests.push(result)
      }
    }
    this.known = known
    writeFileSync(this.kept, JSON.stringify(known))
    const counts = (ids) => Object.fromEntries(ids.map((id) => [id, 1]))
    const perTest = Object.fromEntries(Object.entries(known.byTest).map(([id, ids]) => [id, counts(ids)]))
    const mutantCoverage = { static: counts(Object.values(known.byFile).flat()), perTest }
    return { status: DryRunStatus.Complete, tests, mutantCoverage }
  }

  /** Tests that pass the mutant, and all of a file that passes it while it is loaded; quickest first. */
  testsFor(mutant) {
    const { times, byTest, byFile } = this.known
    const loaded = new Set(Object.keys(byFile).filter((file) => byFile[file].includes(mutant)))
    return Object.keys(times)
      .filter((id) => loaded.has(fileOf(id)) || byTest[id].includes(mutant))
      .filter((id) => times[id] <= this.options.longest)
      .sort((a, b) => times[a] - times[b])
  }

  async mutantRun({ activeMutant: { id, fileName, location, mutatorName, replacement } }) {
    // An error is left out of the score, and of the log.
    if (Number(id) % this.options.each !== 0)
      return { status: MutantRunStatus.Error, errorMessage: 'not taken' }
    const space = Object.assign(globalThis.__stryker__, {
      activeMutant: id,
      hitCount: 0,
      hitLimit: MOST_HITS,
    })
    this.seen.fill(-1)
    const results = await this.until(this.testsFor(id))
    const limit = determineHitLimitReached(space.hitCount, MOST_HITS)
    space.activeMutant = undefined
    const result = toMutantRunResult(limit ?? { status: DryRunStatus.Complete, tests: results })
    if (this.options.log) {
      const { status, killedBy, failureMessage } = result
      const line = {
        file: fileName.slice(fileName.indexOf('src/')),
        location,
        mutatorName,
        replacement,
        status,
        killedBy,
        failureMessage,
      }
      appendFileSync(this.options.log, `${JSON.stringify(line)}\n`)
    }
    return result
  }

  /** Runs tests up to the first that fails. */
  async until(ids) {
    const loaded = new Map()
    const results = []
    this.fresh()
    for (const id of ids) {
      const file = fileOf(id)
      try {
        if (!loaded.has(file)) loaded.set(file, new Map(this.load(file).map((test) => [test.id, test])))
      } catch (error) {
        return [
          {
            id,
            name: id,
            timeSpentMs: 0,
            status: TestStatus.Failed,
            failureMessage: `not loaded: ${error?.message}`,
          },
        ]
      }
      const test = loaded.get(file).get(id)
      // A test that is named after what it tests is another test now; the others decide.
      if (test === undefined) continue
      const result = await this.one(test)
      results.push(result)
      if (result.status === TestStatus.Failed) break
    }
    return results
  }
}

const fileOf = (id) => id.slice(0, id.indexOf('#'))

const made = (options) => new BundledRunner(options)
made.inject = ['options']
export const strykerPlugins = [declareFactoryPlugin(PluginKind.TestRunner, 'bundled', made)]
