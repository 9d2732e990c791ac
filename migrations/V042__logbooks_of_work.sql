-- Into whose logbook work is entered, where its line does not say it: the aircraft's own id for the
-- airframe's, else that of an engine or a propeller. Null of what was signed before it was asked, and
-- where it needs no asking.
alter table line_work add book_id uuid;
