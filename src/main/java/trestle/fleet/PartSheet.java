package trestle.fleet;

import java.util.List;
import java.util.UUID;

/**
 * What is stated of a part number.
 *
 * @param id the part's, the same through its revisions
 * @param fitsTypes the aircraft types it fits, or for a part of an assembly the assembly's part
 *     numbers; none: any
 * @param fitsPositions the position codes it fits, or the places in an assembly; none: any
 * @param fitsWhy why it fits nowhere else ("turns left"), or ""
 * @param dataReference the manufacturer's data
 */
public record PartSheet(
    UUID id,
    UUID revisionId,
    String partNumber,
    String description,
    PartKind kind,
    PartClass partClass,
    List<String> fitsTypes,
    List<String> fitsPositions,
    String fitsWhy,
    boolean lifeLimited,
    String dataReference) {

  /** Why it does not fit there, a whole sentence; or null where it does. */
  String refusal(String typeOrAssembly, String spot, String spotWords) {
    boolean there = has(fitsTypes, typeOrAssembly) && has(fitsPositions, spot);
    if (there) {
      return null;
    }
    String why = fitsWhy.isBlank() ? "" : " (" + fitsWhy + ")";
    return "Part %s fits %s only%s, not %s of %s."
        .formatted(partNumber, fits(), why, spotWords, typeOrAssembly);
  }

  /** Whether it goes onto aircraft of this type, or into parts of this number, at all. */
  boolean goesInto(String typeOrAssembly) {
    return has(fitsTypes, typeOrAssembly);
  }

  /** Whether the sheet names aircraft of this type, or parts of this number, as where it goes. */
  boolean names(String typeOrAssembly) {
    return !fitsTypes.isEmpty() && has(fitsTypes, typeOrAssembly);
  }

  /** "engine-2 of Merrow 8", "any position of Merrow 8", "left magneto". */
  public String fits() {
    String where = fitsPositions.isEmpty() ? "any position" : String.join(" or ", fitsPositions);
    return fitsTypes.isEmpty() ? where : where + " of " + String.join(" or ", fitsTypes);
  }

  private static boolean has(List<String> named, String one) {
    return named.isEmpty() || named.stream().anyMatch(each -> each.equalsIgnoreCase(one));
  }
}
