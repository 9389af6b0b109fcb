-- The office book, form 1. Roles are @OWNER@, @ESTIMATOR@, @FOREMAN@ and @PRICES@.
--
-- What is money lies in tables of its own, that only who has the role @PRICES@ may read.
-- Edits and revisions are added and never changed: each names the version that it was made
-- on, and is refused where another came first. Nobody can write who did it, when, or in
-- which order: the server does.

CREATE SCHEMA haunchbook;
REVOKE ALL ON SCHEMA haunchbook FROM PUBLIC;
GRANT USAGE ON SCHEMA haunchbook TO @OWNER@, @ESTIMATOR@, @FOREMAN@;

CREATE TABLE haunchbook.about (
  one   boolean PRIMARY KEY DEFAULT true CHECK (one),
  form  integer NOT NULL,
  epoch text NOT NULL,          -- names this office book, whatever its address
  made  timestamptz NOT NULL DEFAULT now()
);
GRANT SELECT ON haunchbook.about TO @OWNER@, @ESTIMATOR@, @FOREMAN@;
INSERT INTO haunchbook.about (form, epoch) VALUES (1, gen_random_uuid());

-- Changes are numbered in the order in which they become visible: the row is locked until
-- the end of the transaction.
CREATE TABLE haunchbook.clock (one boolean PRIMARY KEY DEFAULT true CHECK (one), last bigint NOT NULL);
INSERT INTO haunchbook.clock (last) VALUES (0);
GRANT SELECT ON haunchbook.clock TO @OWNER@, @ESTIMATOR@, @FOREMAN@;

CREATE FUNCTION haunchbook.next_change() RETURNS bigint LANGUAGE plpgsql SECURITY DEFINER SET search_path = haunchbook, pg_temp AS $$
DECLARE n bigint;
BEGIN
  UPDATE clock SET last = last + 1 RETURNING last INTO n;
  PERFORM pg_notify('haunchbook', 'change');
  RETURN n;
END $$;
REVOKE ALL ON FUNCTION haunchbook.next_change() FROM PUBLIC;

-- Whether who is logged in has a part here: owner, estimator, foreman, prices.
CREATE FUNCTION haunchbook.may(part text) RETURNS boolean LANGUAGE sql STABLE AS $$
  SELECT pg_has_role(session_user, current_database() || '_' || part, 'member')
$$;

CREATE TABLE haunchbook.jobs (
  id        text PRIMARY KEY CHECK (id ~ '^[0-9a-f]{32}$'),
  made      timestamptz NOT NULL,
  author    text NOT NULL DEFAULT session_user,
  head      bigint NOT NULL DEFAULT 0,   -- the last version
  revisions integer NOT NULL DEFAULT 0   -- the last number
);

CREATE TABLE haunchbook.edits (
  id       text PRIMARY KEY CHECK (id ~ '^[0-9a-f]{32}$'),
  job      text NOT NULL REFERENCES haunchbook.jobs,
  version  bigint NOT NULL,
  author   text NOT NULL,
  device   text NOT NULL CHECK (device ~ '^[0-9a-f]{32}$'),
  at       timestamptz NOT NULL,
  label    text NOT NULL CHECK (length(label) <= 1000),
  open     bytea NOT NULL CHECK (octet_length(open) <= 67108864), -- the job file without money, packed
  state    text NOT NULL CHECK (state IN ('draft', 'bid', 'won', 'poured', 'closed')),
  archived boolean NOT NULL,
  record   bytea CHECK (octet_length(record) <= 67108864),        -- after the pour, without invoices
  form     integer NOT NULL,                                      -- of the job file
  change   bigint NOT NULL UNIQUE,
  xact     xid8 NOT NULL,
  UNIQUE (job, version)
);
CREATE TABLE haunchbook.edit_money (
  job     text NOT NULL,
  version bigint NOT NULL,
  label   text NOT NULL CHECK (length(label) <= 1000),            -- of an edit that changed money
  money   bytea NOT NULL CHECK (octet_length(money) <= 67108864),
  record  bytea CHECK (octet_length(record) <= 67108864),         -- invoices
  PRIMARY KEY (job, version),
  FOREIGN KEY (job, version) REFERENCES haunchbook.edits (job, version)
);

CREATE TABLE haunchbook.revisions (
  id     text PRIMARY KEY CHECK (id ~ '^[0-9a-f]{32}$'),
  job    text NOT NULL REFERENCES haunchbook.jobs,
  number integer NOT NULL CHECK (number BETWEEN 1 AND 1000000),
  author text NOT NULL,
  at     timestamptz NOT NULL,                                    -- when it was made, by who made it
  note   text NOT NULL CHECK (length(note) <= 100000),
  open   bytea NOT NULL CHECK (octet_length(open) <= 67108864),
  form   integer NOT NULL,
  change bigint NOT NULL UNIQUE,
  xact   xid8 NOT NULL,
  UNIQUE (job, number)
);
CREATE TABLE haunchbook.revision_money (
  job    text NOT NULL,
  number integer NOT NULL,
  money  bytea NOT NULL CHECK (octet_length(money) <= 67108864),
  PRIMARY KEY (job, number),
  FOREIGN KEY (job, number) REFERENCES haunchbook.revisions (job, number)
);

CREATE TABLE haunchbook.prices (
  id     text PRIMARY KEY CHECK (id ~ '^[0-9a-f]{32}$'),
  units  text NOT NULL,
  number integer NOT NULL,
  author text NOT NULL,
  stored timestamptz NOT NULL,
  list   bytea NOT NULL CHECK (octet_length(list) <= 67108864),
  form   integer NOT NULL,
  change bigint NOT NULL UNIQUE,
  UNIQUE (units, number)
);

CREATE TABLE haunchbook.settings (
  id      text PRIMARY KEY CHECK (id ~ '^[0-9a-f]{32}$'),
  version bigint NOT NULL,
  author  text NOT NULL,
  at      timestamptz NOT NULL,
  aside   boolean NOT NULL,      -- kept, and not what holds
  open    bytea NOT NULL CHECK (octet_length(open) <= 67108864),
  form    integer NOT NULL,
  change  bigint NOT NULL UNIQUE,
  xact    xid8 NOT NULL,
  UNIQUE (version)
);
CREATE TABLE haunchbook.settings_money (
  version bigint PRIMARY KEY REFERENCES haunchbook.settings (version),
  money   bytea NOT NULL CHECK (octet_length(money) <= 67108864)
);

CREATE TABLE haunchbook.pictures (
  hash bytea PRIMARY KEY,
  file bytea NOT NULL CHECK (octet_length(file) <= 67108864),
  CHECK (hash = sha256(file))
);

-- What is added takes its author, time and number from the server, and its version must be
-- the next. A message that comes twice is taken once.
CREATE FUNCTION haunchbook.take_edit() RETURNS trigger LANGUAGE plpgsql SECURITY DEFINER SET search_path = haunchbook, pg_temp AS $$
DECLARE last bigint;
BEGIN
  SELECT head INTO last FROM jobs WHERE id = NEW.job FOR UPDATE;
  IF EXISTS (SELECT 1 FROM edits WHERE id = NEW.id) THEN RETURN NULL; END IF;
  IF last IS NULL OR NEW.version <> last + 1 THEN
    RAISE EXCEPTION 'version % was edited by another meanwhile', NEW.version - 1 USING ERRCODE = 'HB001';
  END IF;
  NEW.author := session_user;
  NEW.at := clock_timestamp();
  NEW.xact := pg_current_xact_id();
  NEW.change := next_change();
  UPDATE jobs SET head = NEW.version WHERE id = NEW.job;
  RETURN NEW;
END $$;
CREATE TRIGGER take BEFORE INSERT ON haunchbook.edits FOR EACH ROW EXECUTE FUNCTION haunchbook.take_edit();

CREATE FUNCTION haunchbook.take_revision() RETURNS trigger LANGUAGE plpgsql SECURITY DEFINER SET search_path = haunchbook, pg_temp AS $$
DECLARE last integer;
BEGIN
  SELECT revisions INTO last FROM jobs WHERE id = NEW.job FOR UPDATE;
  IF EXISTS (SELECT 1 FROM revisions WHERE id = NEW.id) THEN RETURN NULL; END IF;
  IF last IS NULL OR NEW.number <= last THEN
    RAISE EXCEPTION 'revision % is another''s', NEW.number USING ERRCODE = 'HB001';
  END IF;
  NEW.author := session_user;
  NEW.xact := pg_current_xact_id();
  NEW.change := next_change();
  UPDATE jobs SET revisions = NEW.number WHERE id = NEW.job;
  RETURN NEW;
END $$;
CREATE TRIGGER take BEFORE INSERT ON haunchbook.revisions FOR EACH ROW EXECUTE FUNCTION haunchbook.take_revision();

CREATE FUNCTION haunchbook.take_prices() RETURNS trigger LANGUAGE plpgsql SECURITY DEFINER SET search_path = haunchbook, pg_temp AS $$
DECLARE last integer; n bigint := next_change();
BEGIN
  IF EXISTS (SELECT 1 FROM prices WHERE id = NEW.id) THEN RETURN NULL; END IF;
  SELECT coalesce(max(number), 0) INTO last FROM prices WHERE units = NEW.units;
  IF NEW.number <> last + 1 THEN
    RAISE EXCEPTION 'another price list came first' USING ERRCODE = 'HB001';
  END IF;
  NEW.author := session_user;
  NEW.change := n;
  RETURN NEW;
END $$;
CREATE TRIGGER take BEFORE INSERT ON haunchbook.prices FOR EACH ROW EXECUTE FUNCTION haunchbook.take_prices();

CREATE FUNCTION haunchbook.take_settings() RETURNS trigger LANGUAGE plpgsql SECURITY DEFINER SET search_path = haunchbook, pg_temp AS $$
DECLARE last bigint; n bigint := next_change();
BEGIN
  IF EXISTS (SELECT 1 FROM settings WHERE id = NEW.id) THEN RETURN NULL; END IF;
  SELECT coalesce(max(version), 0) INTO last FROM settings;
  IF NEW.version <> last + 1 THEN
    RAISE EXCEPTION 'the settings were changed by another meanwhile' USING ERRCODE = 'HB001';
  END IF;
  NEW.author := session_user;
  NEW.at := clock_timestamp();
  NEW.xact := pg_current_xact_id();
  NEW.change := n;
  RETURN NEW;
END $$;
CREATE TRIGGER take BEFORE INSERT ON haunchbook.settings FOR EACH ROW EXECUTE FUNCTION haunchbook.take_settings();

-- Money comes with what it belongs to, in one transaction, and never after it.
CREATE FUNCTION haunchbook.take_edit_money() RETURNS trigger LANGUAGE plpgsql SECURITY DEFINER SET search_path = haunchbook, pg_temp AS $$
BEGIN
  IF EXISTS (SELECT 1 FROM edit_money WHERE job = NEW.job AND version = NEW.version) THEN RETURN NULL; END IF;
  IF NOT EXISTS (SELECT 1 FROM edits WHERE job = NEW.job AND version = NEW.version AND xact = pg_current_xact_id()) THEN
    RAISE EXCEPTION 'the edit is another''s' USING ERRCODE = '42501';
  END IF;
  RETURN NEW;
END $$;
CREATE TRIGGER take BEFORE INSERT ON haunchbook.edit_money FOR EACH ROW EXECUTE FUNCTION haunchbook.take_edit_money();

CREATE FUNCTION haunchbook.take_revision_money() RETURNS trigger LANGUAGE plpgsql SECURITY DEFINER SET search_path = haunchbook, pg_temp AS $$
BEGIN
  IF EXISTS (SELECT 1 FROM revision_money WHERE job = NEW.job AND number = NEW.number) THEN RETURN NULL; END IF;
  IF NOT EXISTS (SELECT 1 FROM revisions WHERE job = NEW.job AND number = NEW.number AND xact = pg_current_xact_id()) THEN
    RAISE EXCEPTION 'the revision is another''s' USING ERRCODE = '42501';
  END IF;
  RETURN NEW;
END $$;
CREATE TRIGGER take BEFORE INSERT ON haunchbook.revision_money FOR EACH ROW EXECUTE FUNCTION haunchbook.take_revision_money();

CREATE FUNCTION haunchbook.take_settings_money() RETURNS trigger LANGUAGE plpgsql SECURITY DEFINER SET search_path = haunchbook, pg_temp AS $$
BEGIN
  IF EXISTS (SELECT 1 FROM settings_money WHERE version = NEW.version) THEN RETURN NULL; END IF;
  IF NOT EXISTS (SELECT 1 FROM settings WHERE version = NEW.version AND xact = pg_current_xact_id()) THEN
    RAISE EXCEPTION 'the settings are another''s' USING ERRCODE = '42501';
  END IF;
  RETURN NEW;
END $$;
CREATE TRIGGER take BEFORE INSERT ON haunchbook.settings_money FOR EACH ROW EXECUTE FUNCTION haunchbook.take_settings_money();

-- Columns that may be written are granted one by one; nothing may be changed or deleted.
GRANT SELECT, INSERT (id, made) ON haunchbook.jobs TO @OWNER@, @ESTIMATOR@, @FOREMAN@;
GRANT SELECT, INSERT (id, job, version, device, label, open, state, archived, record, form) ON haunchbook.edits TO @OWNER@, @ESTIMATOR@, @FOREMAN@;
GRANT SELECT, INSERT (id, job, number, at, note, open, form) ON haunchbook.revisions TO @OWNER@, @ESTIMATOR@, @FOREMAN@;
GRANT SELECT ON haunchbook.settings TO @OWNER@, @ESTIMATOR@, @FOREMAN@;
GRANT INSERT (id, version, aside, open, form) ON haunchbook.settings TO @OWNER@, @ESTIMATOR@;
GRANT SELECT, INSERT ON haunchbook.pictures TO @OWNER@, @ESTIMATOR@, @FOREMAN@;
GRANT SELECT, INSERT ON haunchbook.edit_money, haunchbook.revision_money TO @PRICES@;
GRANT SELECT ON haunchbook.settings_money TO @PRICES@;
GRANT INSERT ON haunchbook.settings_money TO @OWNER@, @ESTIMATOR@;
GRANT SELECT ON haunchbook.prices TO @PRICES@;
GRANT INSERT (id, units, number, stored, list, form) ON haunchbook.prices TO @OWNER@, @ESTIMATOR@;

-- And the rows: whose a row is, and who may see one at all.
DO $$
DECLARE name text;
BEGIN
  FOREACH name IN ARRAY ARRAY['jobs', 'edits', 'revisions', 'settings', 'pictures', 'edit_money', 'revision_money', 'settings_money', 'prices'] LOOP
    EXECUTE format('ALTER TABLE haunchbook.%I ENABLE ROW LEVEL SECURITY', name);
  END LOOP;
  FOREACH name IN ARRAY ARRAY['jobs', 'edits', 'revisions', 'settings'] LOOP
    EXECUTE format('CREATE POLICY seen ON haunchbook.%I FOR SELECT USING (haunchbook.may(''owner'') OR haunchbook.may(''estimator'') OR haunchbook.may(''foreman''))', name);
    EXECUTE format('CREATE POLICY own ON haunchbook.%I FOR INSERT WITH CHECK (author = session_user)', name);
  END LOOP;
  FOREACH name IN ARRAY ARRAY['edit_money', 'revision_money', 'settings_money', 'prices'] LOOP
    EXECUTE format('CREATE POLICY seen ON haunchbook.%I FOR SELECT USING (haunchbook.may(''prices''))', name);
    EXECUTE format('CREATE POLICY own ON haunchbook.%I FOR INSERT WITH CHECK (haunchbook.may(''prices''))', name);
  END LOOP;
  CREATE POLICY seen ON haunchbook.pictures FOR SELECT USING (true);
  CREATE POLICY own ON haunchbook.pictures FOR INSERT WITH CHECK (true);
END $$;
