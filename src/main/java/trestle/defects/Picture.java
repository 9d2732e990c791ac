package trestle.defects;

/**
 * A picture made anew from what was sent.
 *
 * @param mediaType what {@code bytes} are; the thumbnail is JPEG always
 */
record Picture(String mediaType, int width, int height, byte[] bytes, byte[] thumbnail) {}
