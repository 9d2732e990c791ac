package trestle.records.pack;

import java.util.List;
import java.util.Set;
import java.util.SortedMap;
import java.util.UUID;
import trestle.programme.RequirementSheet;

/**
 * What belongs into one pack.
 *
 * @param size how many lines the ledger had: nothing later is in it
 * @param lines the kind of each line, by its sequence
 * @param parts the components that are handed over: the subject, or what is fitted to it
 * @param history components that are here only because those sat in them, or sat where those do
 * @param flownOn other aircraft that the parts were on before
 * @param attachments the files that the lines name: what each is, by SHA-256
 */
record Selection(
    PackSubject subject,
    long size,
    SortedMap<Long, String> lines,
    Set<UUID> parts,
    Set<UUID> history,
    Set<UUID> flownOn,
    List<RequirementSheet> requirements,
    SortedMap<String, String> attachments) {}
