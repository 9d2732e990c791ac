-- Runs before every migration, as the owner: what the owner creates from here on, the application's
-- user may read and write, and nothing more (no TRUNCATE, no DDL). A migration that makes an
-- append-only table takes UPDATE and DELETE away again with REVOKE.
DO $$
BEGIN
  -- Two nodes may start at once, and PostgreSQL refuses one of two that grant on one schema at once.
  PERFORM pg_advisory_xact_lock(hashtext('trestle before migrate'));
  GRANT USAGE ON SCHEMA "${flyway:defaultSchema}" TO "${appUser}";
  ALTER DEFAULT PRIVILEGES IN SCHEMA "${flyway:defaultSchema}"
    GRANT SELECT, INSERT, UPDATE, DELETE ON TABLES TO "${appUser}";
  ALTER DEFAULT PRIVILEGES IN SCHEMA "${flyway:defaultSchema}"
    GRANT USAGE, SELECT ON SEQUENCES TO "${appUser}";
END
$$;
