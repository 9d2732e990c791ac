package trestle.records;

import com.fasterxml.jackson.databind.JsonNode;
import java.util.List;
import java.util.regex.Matcher;
import java.util.regex.Pattern;

/**
 * A kind of filed record: what people call it, where it is shown, and how a mistake in one is put
 * right.
 *
 * @param kind the ledger's word
 * @param says the columns that tell most of one, in their order
 * @param page where one is shown, with columns in braces
 * @param correction where one is put right, or null where that is said on its page
 * @param how a mistake is put right, in a sentence for docs/corrections.md
 */
record RecordKind(
    String kind,
    String words,
    List<String> says,
    String page,
    String correction,
    Way way,
    String how) {
  private static final Pattern COLUMN = Pattern.compile("\\{(\\w+)}");

  /** How a mistake in a record of a kind is put right. */
  enum Way {
    CORRECTED("a correction"),
    TAKEN_AWAY("taken away, then filed anew"),
    REVISED("a revision"),
    FOLLOWED("the next record");

    private final String words;

    Way(String words) {
      this.words = words;
    }

    String words() {
      return words;
    }
  }

  /** Where this very record is shown; null where its columns don't say. */
  String pageOf(JsonNode json) {
    return filled(page, json);
  }

  String correctionOf(JsonNode json) {
    return filled(correction, json);
  }

  private static String filled(String path, JsonNode json) {
    if (path == null) {
      return null;
    }
    for (String one : path.split(" or ")) {
      Matcher columns = COLUMN.matcher(one);
      if (columns.results().allMatch(found -> json.hasNonNull(found.group(1)))) {
        return COLUMN.matcher(one).replaceAll(found -> json.get(found.group(1)).asText());
      }
    }
    return null;
  }
}
