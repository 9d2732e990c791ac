package trestle.records.pack;

import java.time.LocalDate;
import java.util.UUID;

/**
 * A pack that was taken in.
 *
 * @param words what it is the record of
 * @param lines how many lines came, of which {@code filed} were filed here
 * @param head the other operator's signed head, as text
 */
record TakenSheet(
    UUID id,
    PackSubject subject,
    String words,
    String fromName,
    LocalDate on,
    int lines,
    int filed,
    String fileSha256,
    String head) {}
