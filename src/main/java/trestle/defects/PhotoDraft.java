package trestle.defects;

/**
 * A picture ready to be kept: looked into, turned upright, and with nothing in it but the picture.
 *
 * @param sourceSha256 of the file as it came
 * @param picture null when exactly this file is kept already, under {@code sha256}
 */
public record PhotoDraft(String sourceSha256, String sha256, Picture picture) {}
