package trestle.fleet;

import jakarta.persistence.Entity;
import jakarta.persistence.Table;
import java.util.List;
import java.util.UUID;
import trestle.ledger.Filed;
import trestle.ledger.Kind;

/** A part number as stated; the newest row of a part counts. */
@Entity
@Table(name = "part_sheet")
@Kind(value = "part-sheet", version = 2)
class PartRow extends Filed {
  UUID partId;
  UUID revises;
  String partNumber;
  String description;
  String kind;
  String partClass;
  String[] fitsTypes;
  String[] fitsPositions;
  String fitsWhy;
  boolean lifeLimited;
  String dataReference;

  PartSheet sheet() {
    return new PartSheet(
        partId,
        id(),
        partNumber,
        description,
        PartKind.parse(kind),
        PartClass.parse(partClass),
        List.of(fitsTypes),
        List.of(fitsPositions),
        fitsWhy,
        lifeLimited,
        dataReference);
  }
}
