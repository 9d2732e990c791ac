package trestle.defects;

/**
 * An abnormal event that the operator lists.
 *
 * @param inspection what it asks for before the aircraft flies again
 * @param shipped as shipped, not yet the operator's own words
 */
public record EventKind(String code, String name, String inspection, boolean shipped) {}
