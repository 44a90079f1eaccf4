/** The store in English: each trouble as what it is and what to do about it. */
import type { StoreTrouble } from '../../job/history/history.ts'
import { clean, shorten } from '../clean.ts'
import type { StoreWords } from '../store-words.ts'

type Facts = StoreTrouble['facts']
type Said = readonly [is: (facts: Facts) => string, todo: (facts: Facts) => string]

const plain = (is: string, todo: string): Said => [() => is, () => todo]
const words = (facts: Facts): string => shorten(clean(String(facts.said ?? facts.system ?? '')), 160)

const BAD_ADDRESS: Readonly<Record<string, string>> = {
  scheme: 'It begins with postgres://',
  form: 'It is written postgres://USER@HOST:PORT/DATABASE; signs such as @ or / in a password are written %40, %2F.',
  port: 'The port is a number from 1 to 65535.',
  sslmode: 'sslmode is one of disable, require, verify-ca, verify-full.',
  'verify-ca': 'sslmode=verify-ca needs sslrootcert=FILE with the certificate of your authority.',
  certificate: 'A file that it names (sslrootcert, sslcert or sslkey) cannot be read.',
}

const file = plain('the folder of jobs cannot be used', 'Check who owns it and whether the disk has room.')

const TROUBLE: Readonly<Partial<Record<StoreTrouble['code'], Said>>> = {
  'bad-address': [
    () => 'this is not the address of a store',
    ({ why }) => BAD_ADDRESS[String(why)] ?? String(BAD_ADDRESS.form),
  ],
  'no-such-host': plain(
    'no such host is known here',
    'Check the name, and whether this machine has a network.',
  ),
  refused: plain('nothing listens there', 'Check host and port, and whether the server runs.'),
  unreachable: plain(
    'no answer',
    'Check the network; a slow one needs connect_timeout=SECONDS in the address.',
  ),
  lost: plain('the connection broke off', 'It is tried again the next time.'),
  'wrong-password': plain(
    'user or password is wrong',
    'Check PGPASSWORD, the password file (~/.pgpass) or the address.',
  ),
  'not-let-in': plain(
    'the server does not let this user in from here',
    'Whoever runs it can allow that in pg_hba.conf.',
  ),
  'no-such-database': plain('there is no such database', 'Make it with: createdb NAME'),
  'no-rights': plain(
    'this user may not do what is needed',
    'Whoever runs the server can grant it: see the page on the store, "Rights".',
  ),
  tls: [
    (facts) => `no secure connection (${words(facts)})`,
    () => 'Check sslmode and sslrootcert in the address, and the server’s certificate.',
  ],
  'server-too-old': [
    ({ version }) => `the server is PostgreSQL ${clean(String(version))}`,
    ({ needed }) => `${needed} or newer is needed.`,
  ],
  'newer-schema': [
    ({ found, known }) => `a newer whichlead has set it up (tables ${found}, known here ${known})`,
    () => 'Update whichlead on this machine; nothing was changed.',
  ],
  'older-schema': [
    ({ found, known }) => `its tables are of an older whichlead (${found}, now ${known})`,
    () => 'Bring them up to date once with: whichlead jobs --hand-in',
  ],
  'read-only': plain('it can only be read', 'Name the main server, not a copy of it.'),
  busy: plain('the server is busy', 'It is tried again the next time.'),
  full: plain('the server’s disk is full', 'Whoever runs it has to make room.'),
  failed: [(facts) => `the server says: ${words(facts)}`, () => 'Whoever runs it finds more in its log.'],
}

const saidOf = ({ code }: StoreTrouble): Said => TROUBLE[code] ?? file

const at = ({ where }: StoreTrouble): string => (where === '' ? 'The store' : `The store ${clean(where)}`)

const jobs = (n: number): string => `${n} job${n === 1 ? '' : 's'}`

export const storeWords: StoreWords = {
  trouble: (trouble) => {
    const [is, todo] = saidOf(trouble)
    return `${at(trouble)}: ${is(trouble.facts)}. ${todo(trouble.facts)}`
  },
  goingOn: (trouble) =>
    `${storeWords.trouble(trouble)} Going on with what this machine has; what is new is handed in later.`,
  handedIn: ({ taken, known }, where) =>
    `${jobs(taken)} handed in to ${clean(where)}${known > 0 ? `; ${known} ${known === 1 ? 'was' : 'were'} there already` : ''}.`,
  waiting: (n) =>
    `${jobs(n)} more will be handed in the next time; all at once with: whichlead jobs --hand-in`,
  refused: (log, trouble) => `${clean(log)} was not taken by the store: ${words(trouble.facts)}`,
  noStore:
    'There is no store. Name one with --store postgres://USER@HOST/DATABASE, or set WHICHLEAD_STORE to such an address.',
  noSuchJob: (id, where) => `${clean(where)} has no job ${clean(id)}. "whichlead jobs" lists them.`,
  forgotten: (where) =>
    `From now on jobs that begin later teach, on all benches that share ${clean(where)}. The logs are as they were.`,
  badLimit: (given) => `--limit takes a whole number from 1 on, not "${shorten(clean(given), 40)}".`,
  more: (shown) =>
    `These are the newest ${shown}; there are more. Name what you look for, or ask for more with --limit.`,
}
