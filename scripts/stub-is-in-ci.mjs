// With CI set, Ink draws nothing until exit; whichlead opens the screen only at a real terminal.
export default false
