// The layout engine without a top-level await: it is set up beside the rest, and whoever loads the screen waits for it.
// `whenReady` comes from the loader of the packed program.
import loadYoga from '../node_modules/yoga-layout/dist/binaries/yoga-wasm-base64-esm.js'
import wrapAssembly from '../node_modules/yoga-layout/dist/src/wrapAssembly.js'

const Yoga = {}
whenReady(
  loadYoga().then((engine) => {
    Object.assign(Yoga, wrapAssembly(engine))
  }),
)

export default Yoga
export * from '../node_modules/yoga-layout/dist/src/generated/YGEnums.js'
