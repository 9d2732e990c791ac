-- Runs after all migrations, as the owner: with these very files the next start need not look again.
COMMENT ON TABLE flyway_schema_history IS '${migrations}';
