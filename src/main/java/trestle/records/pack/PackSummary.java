package trestle.records.pack;

import java.util.List;
import trestle.overview.StatusSheet;

/**
 * What the law asks to be handed over, in words and tables, for the PDF of a pack.
 *
 * @param title "QX-SOR, Tern 180, serial 1042"
 * @param asAt the day it shows, in words
 * @param law what each rule asks and under which heading it stands
 * @param head the signed head, as text
 * @param contents the hash over all other files of the pack
 */
record PackSummary(
    String title,
    String operator,
    String asAt,
    List<List<String>> law,
    List<StatusSheet.Part> parts,
    long size,
    String head,
    String contents) {}
