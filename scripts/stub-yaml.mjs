// Plans are read by another parser. This one edits them and tells what is wrong with text that is no YAML; it is made
// when that is first asked of it. Its build for Node looks at the environment at every token, which costs an eighth of the time.
let made
const yaml = () => {
  // biome-ignore lint/style/noCommonJs: esbuild keeps what is required, not what is imported, until it is wanted.
  made ??= require('../node_modules/yaml/browser/dist/index.js')
  return made
}

export const parseDocument = (...given) => yaml().parseDocument(...given)
export const isMap = (node) => yaml().isMap(node)
export const isScalar = (node) => yaml().isScalar(node)
export const isSeq = (node) => yaml().isSeq(node)
