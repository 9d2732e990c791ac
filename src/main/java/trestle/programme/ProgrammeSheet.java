package trestle.programme;

import java.time.LocalDate;
import java.util.UUID;

/**
 * A type's maintenance programme.
 *
 * @param id of its first row, which stays when the name is corrected
 * @param rowId of the row that states it: what a correction names
 */
public record ProgrammeSheet(
    UUID id, UUID rowId, String name, String typeName, String sourceReference, LocalDate from) {}
