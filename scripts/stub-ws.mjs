// The web socket serves the developer tools only.
export default class {}
