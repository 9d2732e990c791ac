package trestle.web;

import io.quarkus.qute.RawString;

/**
 * The long part of a page, kept both as it is written and as it is packed. The page's template
 * shows {@link #PLACE} where it belongs.
 */
public final class LongPart {
  /** Stands in the page until the part is put there; no text that is escaped can look like it. */
  public static final RawString PLACE = new RawString("<!--long part-->");

  private static final int SMALL = 9;

  private final String html;
  private volatile Packed packed;

  public LongPart(String html) {
    this.html = html;
  }

  String html() {
    return html;
  }

  /** Made when first asked for; two who ask at once may both make it. */
  Packed packed() {
    Packed made = packed;
    if (made == null) {
      made = Packed.of(html, SMALL);
      packed = made;
    }
    return made;
  }
}
