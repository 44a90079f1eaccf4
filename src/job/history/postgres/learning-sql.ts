/**
 * What jobs teach, added up in the same transaction as they come, by triggers, so that it is right however a job came,
 * changed or went. By month, so that old habits can fade; `relearn` counts anew from the jobs.
 */

/** Adds the lessons of a source of rows to the counts. Locks are taken in one order by all, so that writers only wait. */
const count = (source: string): string => `
  INSERT INTO whichlead.learnt_jobs AS l (month, jobs, weight)
    SELECT month, sum(sign), sum(sign * weight) FROM (${lessons(source)}) AS t
    GROUP BY month ORDER BY month
    ON CONFLICT (month) DO UPDATE SET jobs = l.jobs + excluded.jobs, weight = l.weight + excluded.weight;
  INSERT INTO whichlead.learnt AS l (month, class, counted, expected)
    WITH taught AS MATERIALIZED (${lessons(source)})
    SELECT month, class, sum(counted), sum(expected) FROM (
      SELECT t.month, u.class, sum(t.sign * u.part) AS counted, 0 AS expected
        FROM taught t, unnest(t.classes, t.parts) AS u (class, part) GROUP BY t.month, u.class
      UNION ALL
      SELECT t.month, s.class, 0, sum(t.total * s.share)
        FROM (SELECT month, shares, sum(sign * weight) AS total FROM taught GROUP BY month, shares) t
        JOIN whichlead.share s ON s.shares = t.shares GROUP BY t.month, s.class
    ) AS added
    GROUP BY month, class ORDER BY month, class
    ON CONFLICT (month, class) DO UPDATE
      SET counted = l.counted + excluded.counted, expected = l.expected + excluded.expected;`

const lessons = (source: string): string => `
      SELECT j.sign, date_trunc('month', j.began AT TIME ZONE 'UTC')::date AS month, j.shares, j.classes, j.parts,
        (SELECT sum(p) FROM unnest(j.parts) AS p) AS weight
      FROM (${source}) AS j, whichlead.learning AS g
      WHERE j.shares IS NOT NULL AND (g.since IS NULL OR j.began >= g.since)`

/** Holds the line for forgetting: whoever forgets waits for those who count, and the other way round. */
const counting = (name: string, source: string): string => `
CREATE FUNCTION whichlead.${name}() RETURNS trigger LANGUAGE plpgsql AS $$
BEGIN
  PERFORM 1 FROM whichlead.learning FOR SHARE;
  ${count(source)}
  RETURN NULL;
END
$$;`

export const learning = `
CREATE TABLE whichlead.learning (
  single boolean PRIMARY KEY DEFAULT true CHECK (single),
  since timestamptz
);
COMMENT ON TABLE whichlead.learning IS 'jobs that began before "since" are forgotten';
INSERT INTO whichlead.learning DEFAULT VALUES;
CREATE TABLE whichlead.share (
  shares text COLLATE "C" NOT NULL,
  class text COLLATE "C" NOT NULL,
  share double precision NOT NULL,
  PRIMARY KEY (shares, class)
);
COMMENT ON TABLE whichlead.share IS 'what the catalogue of faults expects on a build; many jobs have the same';
CREATE TABLE whichlead.learnt_jobs (
  month date PRIMARY KEY,
  jobs bigint NOT NULL,
  weight double precision NOT NULL
);
CREATE TABLE whichlead.learnt (
  month date NOT NULL,
  class text COLLATE "C" NOT NULL,
  counted double precision NOT NULL,
  expected double precision NOT NULL,
  PRIMARY KEY (month, class)
);
COMMENT ON TABLE whichlead.learnt IS 'by class of fault: what turned up, and what the catalogue expected of as many jobs';
${counting('count_added', 'SELECT 1 AS sign, * FROM added')}
${counting('count_gone', 'SELECT -1 AS sign, * FROM gone')}
${counting('count_changed', 'SELECT 1 AS sign, * FROM added UNION ALL SELECT -1, * FROM gone')}
CREATE TRIGGER count_added AFTER INSERT ON whichlead.job
  REFERENCING NEW TABLE AS added FOR EACH STATEMENT EXECUTE FUNCTION whichlead.count_added();
CREATE TRIGGER count_gone AFTER DELETE ON whichlead.job
  REFERENCING OLD TABLE AS gone FOR EACH STATEMENT EXECUTE FUNCTION whichlead.count_gone();
CREATE TRIGGER count_changed AFTER UPDATE ON whichlead.job
  REFERENCING OLD TABLE AS gone NEW TABLE AS added FOR EACH STATEMENT EXECUTE FUNCTION whichlead.count_changed();
CREATE FUNCTION whichlead.relearn() RETURNS void LANGUAGE plpgsql AS $$
BEGIN
  PERFORM 1 FROM whichlead.learning FOR UPDATE;
  DELETE FROM whichlead.learnt;
  DELETE FROM whichlead.learnt_jobs;
  ${count("SELECT 1 AS sign, * FROM whichlead.job WHERE began >= coalesce((SELECT since FROM whichlead.learning), '-infinity')")}
END
$$;
SELECT whichlead.relearn();
`
