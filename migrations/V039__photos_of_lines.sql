-- Pictures of a line, each with a word on what it shows; the picture itself is in attachment.
create table line_photo (
  like filed_row including all,
  aircraft_id uuid not null,
  line_entry_id uuid not null,
  photo text not null check (photo ~ '^[0-9a-f]{64}$'),
  words text not null default '' check (length(words) <= 200),
  taker_name text not null check (length(taker_name) between 1 and 120),
  voided boolean check (voided),
  foreign key (operator_id, aircraft_id) references aircraft,
  foreign key (operator_id, line_entry_id) references work_line (operator_id, id),
  check (voided is null or corrects is not null)
);
call as_filed('line_photo');
create index line_photo_of_line on line_photo (operator_id, line_entry_id);
create index line_photo_of_aircraft on line_photo (operator_id, aircraft_id);
