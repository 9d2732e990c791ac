-- How parts are counted, and shown a page at a time, where a directive names hundreds of thousands.
-- A component's first row bears the component's own id; the few that were stated anew since are
-- found by the other rows, and looked at one by one. (A column, so that the planner learns how few.)
alter table component
  add column stated_anew boolean generated always as (id <> component_id) stored;
create index component_stated_anew on component (operator_id, component_id) where stated_anew;
create index component_in_order on component
  (operator_id, part_key, part_number collate "C", serial collate "C", component_id);
