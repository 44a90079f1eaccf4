// Ink only reaches for the developer tools when DEV=true; the bundle must survive that too.
export default { initialize() {}, connectToDevTools() {} }
