-- Form 3: numbers of jobs and invoices that all books share, and deleting for good.

-- Names are written out, so that no search path of who asks changes what they mean.
CREATE OR REPLACE FUNCTION haunchbook.may(part text) RETURNS boolean LANGUAGE sql STABLE AS $$
  SELECT pg_catalog.pg_has_role(session_user, (pg_catalog.current_database()::pg_catalog.text OPERATOR(pg_catalog.||) '_'::pg_catalog.text OPERATOR(pg_catalog.||) part)::pg_catalog.name, 'member'::pg_catalog.text)
$$;

-- Who may see a table at all is asked once for a query, not for each row.
DO $$
DECLARE name text;
BEGIN
  FOREACH name IN ARRAY ARRAY['jobs', 'edits', 'revisions', 'settings'] LOOP
    EXECUTE format('ALTER POLICY seen ON haunchbook.%I USING ((SELECT haunchbook.may(''owner'') OR haunchbook.may(''estimator'') OR haunchbook.may(''foreman'')))', name);
  END LOOP;
  FOREACH name IN ARRAY ARRAY['edit_money', 'revision_money', 'settings_money', 'prices'] LOOP
    EXECUTE format('ALTER POLICY seen ON haunchbook.%I USING ((SELECT haunchbook.may(''prices'')))', name);
  END LOOP;
END $$;

-- A note of a revision in which there may be a figure is money.
ALTER TABLE haunchbook.revision_money ADD COLUMN note text CHECK (length(note) <= 100000);

-- The last numbers given out.
CREATE TABLE haunchbook.numbers (kind text PRIMARY KEY, last integer NOT NULL);
ALTER TABLE haunchbook.numbers ENABLE ROW LEVEL SECURITY;
INSERT INTO haunchbook.numbers VALUES ('job', 0), ('invoice', 0);

-- A job has the number that it has in the book that it was made in, where no other has it.
ALTER TABLE haunchbook.jobs ADD COLUMN number integer CHECK (number > 0);
UPDATE haunchbook.jobs j SET number = o.n FROM (SELECT id, row_number() OVER (ORDER BY made, id) AS n FROM haunchbook.jobs) o WHERE o.id = j.id;
UPDATE haunchbook.numbers SET last = (SELECT count(*) FROM haunchbook.jobs) WHERE kind = 'job';
ALTER TABLE haunchbook.jobs ALTER COLUMN number SET NOT NULL, ADD UNIQUE (number);
GRANT INSERT (number) ON haunchbook.jobs TO @OWNER@, @ESTIMATOR@, @FOREMAN@;

CREATE FUNCTION haunchbook.take_job() RETURNS trigger LANGUAGE plpgsql SECURITY DEFINER SET search_path = haunchbook, pg_temp AS $$
DECLARE n integer;
BEGIN
  IF EXISTS (SELECT 1 FROM jobs WHERE id = NEW.id) THEN RETURN NULL; END IF;
  SELECT last INTO n FROM numbers WHERE kind = 'job' FOR UPDATE;
  -- Nobody moves the numbers far away.
  IF NEW.number IS NULL OR NEW.number > n + 100000 OR EXISTS (SELECT 1 FROM jobs WHERE number = NEW.number) THEN NEW.number := n + 1; END IF;
  UPDATE numbers SET last = greatest(last, NEW.number) WHERE kind = 'job';
  RETURN NEW;
END $$;
CREATE TRIGGER take BEFORE INSERT ON haunchbook.jobs FOR EACH ROW EXECUTE FUNCTION haunchbook.take_job();

-- Numbers for invoices are given out once each: as many as asked for, the first of which is
-- told.
CREATE FUNCTION haunchbook.draw_invoices(after integer, many integer) RETURNS integer LANGUAGE plpgsql SECURITY DEFINER SET search_path = haunchbook, pg_temp AS $$
DECLARE first integer;
BEGIN
  IF NOT may('prices') THEN RAISE EXCEPTION 'invoices are for who may see prices' USING ERRCODE = '42501'; END IF;
  IF many NOT BETWEEN 1 AND 100 OR after NOT BETWEEN 0 AND 100000000 THEN RAISE EXCEPTION 'no such numbers' USING ERRCODE = '22023'; END IF;
  UPDATE numbers SET last = greatest(last, after) + many WHERE kind = 'invoice' RETURNING last - many + 1 INTO first;
  RETURN first;
END $$;

-- Which numbers the invoices of jobs have, so that one that is there twice is found.
CREATE TABLE haunchbook.invoices (
  number integer NOT NULL,
  job    text NOT NULL REFERENCES haunchbook.jobs,
  PRIMARY KEY (number, job)
);
CREATE INDEX ON haunchbook.invoices (job);
GRANT SELECT ON haunchbook.invoices TO @PRICES@;
ALTER TABLE haunchbook.invoices ENABLE ROW LEVEL SECURITY;
CREATE POLICY seen ON haunchbook.invoices FOR SELECT USING ((SELECT haunchbook.may('prices')));

CREATE FUNCTION haunchbook.bill(name text, list integer[]) RETURNS void LANGUAGE plpgsql SECURITY DEFINER SET search_path = haunchbook, pg_temp AS $$
BEGIN
  IF NOT may('prices') THEN RAISE EXCEPTION 'invoices are for who may see prices' USING ERRCODE = '42501'; END IF;
  DELETE FROM invoices WHERE job = name AND number <> ALL (list);
  INSERT INTO invoices (number, job) SELECT DISTINCT unnest(list), name ON CONFLICT DO NOTHING;
  UPDATE numbers SET last = greatest(last, (SELECT max(n) FROM unnest(list) n WHERE n <= 100000000)) WHERE kind = 'invoice';
END $$;

-- Which jobs show which pictures; "settings" for the logo. Of pictures from before this
-- form it is not known.
CREATE TABLE haunchbook.shown (
  job  text NOT NULL CHECK (job ~ '^([0-9a-f]{32}|settings)$'),
  hash bytea NOT NULL,
  PRIMARY KEY (job, hash)
);
CREATE INDEX ON haunchbook.shown (hash);
GRANT SELECT, INSERT ON haunchbook.shown TO @OWNER@, @ESTIMATOR@, @FOREMAN@;
ALTER TABLE haunchbook.shown ENABLE ROW LEVEL SECURITY;
CREATE POLICY seen ON haunchbook.shown FOR SELECT USING (true);
CREATE POLICY own ON haunchbook.shown FOR INSERT WITH CHECK (true);
ALTER TABLE haunchbook.pictures ADD COLUMN known boolean NOT NULL DEFAULT true;
UPDATE haunchbook.pictures SET known = false;
REVOKE INSERT ON haunchbook.pictures FROM @OWNER@, @ESTIMATOR@, @FOREMAN@;
GRANT INSERT (hash, file) ON haunchbook.pictures TO @OWNER@, @ESTIMATOR@, @FOREMAN@;

-- Jobs that an owner deleted for good.
CREATE TABLE haunchbook.erased (
  job    text PRIMARY KEY,
  author text NOT NULL,
  at     timestamptz NOT NULL,
  change bigint NOT NULL UNIQUE
);
GRANT SELECT ON haunchbook.erased TO @OWNER@, @ESTIMATOR@, @FOREMAN@;
ALTER TABLE haunchbook.erased ENABLE ROW LEVEL SECURITY;
CREATE POLICY seen ON haunchbook.erased FOR SELECT USING (true);

CREATE FUNCTION haunchbook.erase(name text) RETURNS void LANGUAGE plpgsql SECURITY DEFINER SET search_path = haunchbook, pg_temp AS $$
BEGIN
  IF NOT may('owner') THEN RAISE EXCEPTION 'only an owner deletes a job for good' USING ERRCODE = '42501'; END IF;
  PERFORM 1 FROM jobs WHERE id = name FOR UPDATE;
  IF NOT FOUND OR EXISTS (SELECT 1 FROM erased WHERE job = name) THEN RETURN; END IF;
  DELETE FROM edit_money WHERE job = name;
  DELETE FROM revision_money WHERE job = name;
  DELETE FROM edits WHERE job = name;
  DELETE FROM revisions WHERE job = name;
  DELETE FROM invoices WHERE job = name;
  DELETE FROM presence WHERE job = name;
  DELETE FROM pictures p USING shown s WHERE s.job = name AND s.hash = p.hash AND p.known
    AND NOT EXISTS (SELECT 1 FROM shown o WHERE o.hash = p.hash AND o.job <> name);
  DELETE FROM shown WHERE job = name;
  INSERT INTO erased (job, author, at, change) VALUES (name, session_user, clock_timestamp(), next_change());
END $$;

-- Nothing is added to such a job. This comes after who adds it has the job's row alone.
CREATE FUNCTION haunchbook.not_erased() RETURNS trigger LANGUAGE plpgsql SECURITY DEFINER SET search_path = haunchbook, pg_temp AS $$
DECLARE who text;
BEGIN
  SELECT author INTO who FROM erased WHERE job = NEW.job;
  IF FOUND THEN RAISE EXCEPTION '%', who USING ERRCODE = 'HB002'; END IF;
  RETURN NEW;
END $$;
CREATE TRIGGER then_not_erased BEFORE INSERT ON haunchbook.edits FOR EACH ROW EXECUTE FUNCTION haunchbook.not_erased();
CREATE TRIGGER then_not_erased BEFORE INSERT ON haunchbook.revisions FOR EACH ROW EXECUTE FUNCTION haunchbook.not_erased();

REVOKE ALL ON FUNCTION haunchbook.draw_invoices(integer, integer), haunchbook.bill(text, integer[]), haunchbook.erase(text) FROM PUBLIC;
GRANT EXECUTE ON FUNCTION haunchbook.draw_invoices(integer, integer), haunchbook.bill(text, integer[]) TO @PRICES@;
GRANT EXECUTE ON FUNCTION haunchbook.erase(text) TO @OWNER@;

UPDATE haunchbook.about SET form = 3;
