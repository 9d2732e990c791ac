package trestle.web;

import com.github.benmanes.caffeine.cache.Cache;
import com.github.benmanes.caffeine.cache.Caffeine;
import java.util.List;

/** A page with a long part in it, until it is known whether it is to be packed. */
record LongPage(String before, LongPart part, String after) {
  private static final int QUICK = 2;

  /** What follows the long part is the same on most pages. */
  private static final Cache<String, Packed> ENDS = Caffeine.newBuilder().maximumSize(100).build();

  static LongPage of(String around, LongPart part) {
    String place = LongPart.PLACE.getValue();
    int at = around.indexOf(place);
    if (at < 0) {
      throw new IllegalStateException("The page shows no place for its long part");
    }
    return new LongPage(around.substring(0, at), part, around.substring(at + place.length()));
  }

  String html() {
    return before + part.html() + after;
  }

  byte[] gzip() {
    Packed end = ENDS.get(after, text -> Packed.of(text, QUICK));
    return Packed.stream(List.of(Packed.of(before, QUICK), part.packed(), end));
  }
}
