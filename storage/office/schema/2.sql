-- Form 2: who is on which job. Each writes only of himself, and the server says when.

CREATE TABLE haunchbook.presence (
  device text NOT NULL CHECK (device ~ '^[0-9a-f]{32}$'),
  who    text NOT NULL DEFAULT session_user,
  job    text NOT NULL,
  seen   timestamptz NOT NULL DEFAULT clock_timestamp(),
  PRIMARY KEY (device, who)
);
GRANT SELECT, INSERT (device, job), UPDATE (job), DELETE ON haunchbook.presence TO @OWNER@, @ESTIMATOR@, @FOREMAN@;
ALTER TABLE haunchbook.presence ENABLE ROW LEVEL SECURITY;
CREATE POLICY seen ON haunchbook.presence FOR SELECT USING (true);
CREATE POLICY own_new ON haunchbook.presence FOR INSERT WITH CHECK (who = session_user);
CREATE POLICY own_change ON haunchbook.presence FOR UPDATE USING (who = session_user) WITH CHECK (who = session_user);
CREATE POLICY own_end ON haunchbook.presence FOR DELETE USING (who = session_user);

CREATE FUNCTION haunchbook.take_presence() RETURNS trigger LANGUAGE plpgsql AS $$
BEGIN
  NEW.seen := clock_timestamp();
  IF TG_OP = 'INSERT' OR NEW.job <> OLD.job THEN PERFORM pg_notify('haunchbook', 'presence'); END IF;
  RETURN NEW;
END $$;
CREATE TRIGGER take BEFORE INSERT OR UPDATE ON haunchbook.presence FOR EACH ROW EXECUTE FUNCTION haunchbook.take_presence();

UPDATE haunchbook.about SET form = 2;
