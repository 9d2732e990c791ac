package trestle.workshop.paper;

import java.util.ArrayList;
import java.util.List;
import trestle.workshop.Area;
import trestle.workshop.OrderLine;
import trestle.workshop.WorkOrderSheet;

/** The cards of one area, so that a panel is opened once. */
record Card(Area area, List<OrderLine> lines) {

  static List<Card> of(WorkOrderSheet sheet) {
    List<Card> cards = new ArrayList<>();
    for (Area area : Area.values()) {
      List<OrderLine> lines =
          sheet.lines().stream().filter(line -> line.line().area() == area).toList();
      if (!lines.isEmpty()) {
        cards.add(new Card(area, lines));
      }
    }
    return cards;
  }
}
