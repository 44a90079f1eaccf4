/**
 * How the tables came to be, step by step. A step that was released is never changed: a store somewhere has been through
 * it. The next one is added below, and is as well what an older store goes through.
 */
import { learning } from './learning-sql.ts'

export interface Migration {
  readonly version: number
  readonly name: string
  readonly sql: string
}

/** Keys are cut to a length that any index takes: `keyOf`. */
const jobs = `
CREATE TABLE whichlead.store (
  id uuid NOT NULL DEFAULT gen_random_uuid()
);
INSERT INTO whichlead.store DEFAULT VALUES;
CREATE TABLE whichlead.job (
  id text COLLATE "C" PRIMARY KEY,
  lines integer NOT NULL,
  ended boolean NOT NULL,
  file text NOT NULL,
  build text NOT NULL,
  build_key text COLLATE "C" NOT NULL,
  symptom text NOT NULL,
  outcome text COLLATE "C" NOT NULL,
  who text,
  place text,
  began timestamptz NOT NULL,
  minutes double precision NOT NULL,
  damaged boolean NOT NULL,
  cause text,
  words text NOT NULL,
  shares text COLLATE "C",
  classes text[],
  parts double precision[],
  handed_in timestamptz NOT NULL DEFAULT now(),
  log text NOT NULL
);
COMMENT ON TABLE whichlead.job IS 'one job each: its summary, what it teaches (classes, parts), and its whole log';
COMMENT ON COLUMN whichlead.job.words IS 'what is searched for words';
COMMENT ON COLUMN whichlead.job.cause IS 'JSON: the likeliest suspect, as in the log';
CREATE INDEX job_newest ON whichlead.job (began DESC, id);
CREATE INDEX job_by_build ON whichlead.job (build_key, began DESC, id);
CREATE INDEX job_by_outcome ON whichlead.job (outcome, began DESC, id);
CREATE TABLE whichlead.fault (
  job text COLLATE "C" NOT NULL REFERENCES whichlead.job ON DELETE CASCADE,
  nth integer NOT NULL,
  began timestamptz NOT NULL,
  place text NOT NULL,
  mode text NOT NULL,
  place_key text COLLATE "C" NOT NULL,
  part_key text COLLATE "C" NOT NULL,
  mode_key text COLLATE "C" NOT NULL,
  cause_key text COLLATE "C" NOT NULL,
  PRIMARY KEY (job, nth)
);
COMMENT ON TABLE whichlead.fault IS 'the faults of a job''s cause';
CREATE INDEX fault_by_part ON whichlead.fault (part_key, began DESC, job);
CREATE INDEX fault_by_cause ON whichlead.fault (cause_key, began DESC, job);
`

/**
 * Words are found anywhere in a text, which only an index of letter triples helps. It comes with the server's usual
 * extras; where it is missing, or this user may not set it up, a search for words reads all jobs.
 */
const words = `
DO $$
BEGIN
  CREATE EXTENSION IF NOT EXISTS pg_trgm WITH SCHEMA whichlead;
  CREATE INDEX job_by_words ON whichlead.job USING gin (words whichlead.gin_trgm_ops);
EXCEPTION WHEN insufficient_privilege OR undefined_file OR feature_not_supported OR undefined_object THEN
  RAISE NOTICE 'no index for words: %', SQLERRM;
END
$$;
`

export const MIGRATIONS: readonly Migration[] = [
  { version: 1, name: 'jobs and their faults', sql: jobs },
  { version: 2, name: 'what jobs teach, added up', sql: learning },
  { version: 3, name: 'an index for words', sql: words },
]
