/** Help texts of the commands: what each does, its options, and examples that can be typed as they stand. */
import type { CommandText } from '../program.ts'
import { firstBoot, jobOptions, STORE } from './job-commands.ts'

export const commandTexts: Readonly<Record<string, CommandText>> = {
  diagnose: {
    summary: 'Find what is wrong with a build, step by step',
    about: [
      'Reads the wiring plan, asks what is seen, checks the answers against the plan, names the cause, and proves the fix.',
      'Every answer is written to the job log at once; a job that was left can be taken up again with "resume".',
      'Without a terminal, or with --plain, the job goes line by line; --lines speaks JSON for other programs.',
    ],
    options: {
      symptom:
        'what is wrong; several with commas, or given more than once; which-symptom asks what you see; without it you choose from a list',
      ...jobOptions,
    },
    examples: [
      ['whichlead diagnose studio.build.yaml', 'asks what is wrong, then looks for the cause'],
      ['whichlead diagnose studio.build.yaml --symptom lights-dark', 'starts with dark lights'],
      ['whichlead diagnose studio.build.yaml --symptom lights-dark,fan-still', 'both at once'],
      ['whichlead diagnose studio.build.yaml --plain', 'line by line'],
      [
        'whichlead diagnose studio.build.yaml --readings fans.json --as fan1=SYS1',
        'with the speeds that the machine reports',
      ],
    ],
  },
  'first-boot': firstBoot,
  practice: {
    summary: 'Practise on a planted fault: you choose the steps',
    about: [
      'Plants a fault in the model of a build and lets you find it. You choose each step, the model answers, the minutes',
      'count; at the end yours stand beside those that whichlead itself would have taken, with the step that cost most.',
      'Without a plan: the demo build. Without --seed: a new exercise each time. Nothing is kept.',
    ],
    options: {
      level: 'easy, medium or hard: how much has to be found out; easy where it is left out',
      seed: 'the number of an exercise, to do the same one again',
      fault: 'plant this fault, as AT:MODE; "whichlead bench PLAN --list-faults" lists them',
      plain: 'line by line, for screen readers and pipes',
      ascii: 'no characters beyond ASCII',
    },
    examples: [
      ['whichlead practice', 'an easy one on the demo build'],
      ['whichlead practice studio.build.yaml --level hard', 'a hard one on this build'],
      ['whichlead practice --level medium --seed 7', 'one that a colleague can do too'],
    ],
  },
  check: {
    summary: 'Check a wiring plan before power-on',
    about: [
      'Reads the plan and tells every limit that it breaks: currents, ports, depth, voltages, settings.',
      'Ends with 1 if something may not work, with --strict if there is anything at all to tell.',
    ],
    options: {
      json: 'findings as JSON',
      lines: 'findings as JSON, one a line',
      format: 'text, json, lines or sarif',
      strict: 'end with 1 for the mildest finding too',
      ascii: 'no characters beyond ASCII',
    },
    examples: [['whichlead check studio.build.yaml', 'what to change before switching on']],
  },
  draw: {
    summary: 'Draw the wiring of a build',
    about: [
      'Draws the plan from supply and headers down to each fan and light, with the findings of the audit marked.',
    ],
    options: {
      svg: 'as an SVG picture',
      sheet: 'as a sheet to print and take to the bench',
      format: 'text, svg or sheet',
      width: 'columns to draw in',
      ascii: 'no characters beyond ASCII',
    },
    examples: [
      ['whichlead draw studio.build.yaml', 'the whole wiring as text'],
      ['whichlead draw studio.build.yaml --svg > studio.svg', 'a picture'],
    ],
  },
  bench: {
    summary: 'Run a plan with faults and edits, and print what would be seen',
    about: [
      'Runs the model of the build: with the faults and after the edits given, in their order, and prints every',
      'thing that can be seen, read or measured. With --list-faults: all single faults of the plan with their priors.',
    ],
    options: {
      fault: 'a fault as AT:MODE; may be given more than once',
      edit: 'an edit, such as "swap F2.motor F3.motor"; may be given more than once',
      json: 'as JSON',
      'list-faults': 'list the single faults of the plan',
    },
    examples: [
      ['whichlead bench studio.build.yaml', 'what the healthy build shows'],
      ['whichlead bench studio.build.yaml --fault F2.light:unplugged', 'what it shows with a plug out'],
      ['whichlead bench studio.build.yaml --list-faults --json', 'every fault it could have'],
    ],
  },
  resume: {
    summary: 'Take up a job that was left',
    about: [
      'Replays the job log and goes on at the question where it stopped. Without a log: the newest job that has no end.',
      'Where the plan file has changed since, what differs is told, and the job goes on with the new plan and every answer that still has its place in it.',
    ],
    options: {
      plain: 'line by line, for screen readers and pipes',
      lines: 'JSON, one object a line, for other programs',
      ascii: 'no characters beyond ASCII in drawings',
      'no-learning': 'take no account of what closed jobs taught',
      store: STORE,
      salvage: 'go on from before the damage in a damaged log; the rest is kept beside it',
      'keep-plan': 'go on with the plan in the log, whatever its file says now',
    },
    examples: [
      ['whichlead resume', 'the newest job that has no end'],
      ['whichlead resume studio.ndjson', 'this one'],
    ],
  },
  report: {
    summary: 'Make a page of a job that a colleague can read',
    about: [
      'Reads a job log and writes a report: what was wrong, what was seen and done, what it was, and the proof.',
      'Without a log: of the newest job. As Markdown, unless --html, --json or the ending of the file says otherwise.',
    ],
    options: {
      html: 'as one HTML file with drawings',
      json: 'as JSON',
      short: 'one page, for a customer',
      'without-names': 'without people, places, paths and notes',
      'as-log':
        'instead of a page the log itself without all of those, to share: it can be replayed and taken up elsewhere',
      out: 'write to this file instead of standard output',
      force: 'replace the file if it exists',
      store: 'where a log is that is named store:ID, as "whichlead jobs" lists it',
    },
    examples: [
      ['whichlead report --out report.md', 'the newest job, as Markdown'],
      ['whichlead report studio.ndjson --html --out report.html', 'one HTML file'],
      ['whichlead report studio.ndjson --as-log --out shared.ndjson', 'a log to share'],
    ],
  },
  replay: {
    summary: 'Step through a job as it went, for teaching',
    about: [
      'Shows what was told, asked and answered in a job, a step at a time, with what was suspected after each.',
      'Enter shows the next step; any word ends it. Without a terminal all of it comes at once. The log is not changed.',
    ],
    options: {
      ascii: 'no characters beyond ASCII',
      store: 'where a log is that is named store:ID, as "whichlead jobs" lists it',
    },
    examples: [['whichlead replay studio.ndjson', 'a step at a time']],
  },
  jobs: {
    summary: 'List your jobs',
    about: [
      'Lists the jobs kept on this machine, the newest first; with words (a build, a part, a cause, a date), only those',
      'that hold them all. Closed jobs teach which faults turn up at this bench; --learned shows what, --forget ends it.',
    ],
    options: {
      build: 'of the build of this name',
      part: 'with the cause at this part or place: F2, SYS1, F2.motor',
      cause: 'with this cause: loose, open, open-TACH',
      symptom: 'of this symptom',
      outcome: 'that ended so: fixed, handed-over, declined, nothing-wrong, left, open',
      from: 'begun in this year, month or day (UTC), or later',
      to: 'begun in it, or before',
      csv: 'as CSV, for a spreadsheet',
      json: 'as JSON',
      sums: 'summed up by outcome, cause, place and build',
      learned: 'what closed jobs taught: which faults are suspected more or less than usual',
      forget: 'begin to learn anew; the logs stay',
      limit: 'at most so many, the newest',
      store:
        'list those of all benches that share this store (WHICHLEAD_STORE), after handing in what is new here',
      'hand-in': 'hand in all jobs of this machine to the store',
    },
    examples: [
      ['whichlead jobs', 'what is open and what is done'],
      ['whichlead jobs studio lights', 'those that speak of both'],
      ['whichlead jobs --cause loose --from 2026-01', 'loose plugs since January'],
      ['whichlead jobs 2026-03 --sums', 'a month summed up'],
    ],
  },
  new: {
    summary: 'Begin a wiring plan by questions',
    about: [
      'Asks how many fans there are, what their leads end in and what the board offers, and writes a plan with comments.',
      'Enter alone takes what is usual. Without a file the plan goes to standard output. No file is replaced unasked.',
    ],
    options: {
      out: 'write to this file',
      usual: 'ask nothing; write a plan with what is usual',
      force: 'replace the file if it exists',
      ascii: 'no characters beyond ASCII',
    },
    examples: [
      ['whichlead new studio.build.yaml', 'asks, then writes the plan'],
      ['whichlead new --usual > studio.build.yaml', 'a plan to start from, without questions'],
    ],
  },
  edit: {
    summary: 'Write into a plan what was changed at the bench',
    about: [
      'Takes changes in the words of the bench and shows the lines of the plan that change. Comments and order stay.',
      'Changes are: "plug PORT -> PORT", "unplug PORT", "swap PORT PORT", "set SETTING = VALUE".',
    ],
    options: { write: 'put the changes into the file' },
    examples: [
      ['whichlead edit studio.build.yaml "plug F1.motor -> board.SYS2"', 'shows what would change'],
      ['whichlead edit studio.build.yaml "set headers/SYS2/drive = dc" --write', 'changes the file'],
    ],
  },
  schema: {
    summary: 'Print the JSON Schema of a wiring plan, for editors',
    about: ['An editor that knows the schema completes keys and marks mistakes while a plan is written.'],
    options: {},
    examples: [['whichlead schema > build.schema.json', 'a file for the editor']],
  },
  engine: {
    summary: 'Solve troubleshooting problems with the engine alone',
    about: [
      'Reads problems and standings as JSON, one a line, and answers each standing with the next step.',
    ],
    options: { policy: 'answer each standing with the next step' },
    examples: [['whichlead engine --policy < problems.ndjson', 'the next step for each standing']],
  },
  completion: {
    summary: 'Print a script by which a shell completes commands and options',
    about: ["For bash, zsh or fish. Read it from the shell's own start file."],
    options: {},
    examples: [
      ['whichlead completion bash > whichlead.bash', 'then: source whichlead.bash'],
      ['whichlead completion fish > whichlead.fish', 'in the folder of fish for completions'],
    ],
  },
  help: {
    summary: 'Help for a command',
    about: [],
    options: { man: 'the manual page of the whole program, for man' },
    examples: [
      ['whichlead help bench', 'what bench takes'],
      ['whichlead help --man > whichlead.1', 'then: man ./whichlead.1'],
    ],
  },
}
