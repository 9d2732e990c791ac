package trestle.records.pack;

import jakarta.enterprise.context.ApplicationScoped;
import jakarta.inject.Inject;
import java.util.List;
import java.util.UUID;
import trestle.web.NotHere;
import trestle.web.Reading;
import trestle.web.Viewer;

/** What was taken in from other operators, as it came. */
@ApplicationScoped
public class TakenPacks {
  @Inject TakenRepository repository;

  /** The packs that were taken in, the newest first. */
  @Reading
  List<TakenSheet> all(Viewer viewer) {
    return repository.packs().stream().map(TakenPack::sheet).toList();
  }

  @Reading
  List<TakenSheet> of(Viewer viewer, PackSubject subject) {
    return repository.packsOf(subject).stream().map(TakenPack::sheet).toList();
  }

  @Reading
  TakenSheet one(Viewer viewer, UUID id) {
    return repository
        .pack(id)
        .map(TakenPack::sheet)
        .orElseThrow(() -> new NotHere("There is no such pack here."));
  }

  /** How many lines of a kind came, and how many of those were filed. */
  record KindCount(String kind, long lines, long filed) {}

  @Reading
  List<KindCount> kinds(Viewer viewer, UUID id) {
    return repository.kinds(id).stream()
        .map(
            row ->
                new KindCount(
                    (String) row[0], ((Number) row[1]).longValue(), ((Number) row[2]).longValue()))
        .toList();
  }

  /** Lines as they came, of one kind or (with "") of all. */
  @Reading
  List<TakenRepository.Kept> kept(Viewer viewer, UUID id, String kind, int from, int most) {
    return repository.lines(id, kind, from, most);
  }
}
