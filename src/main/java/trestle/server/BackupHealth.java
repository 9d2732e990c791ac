package trestle.server;

import io.smallrye.health.api.Wellness;
import jakarta.enterprise.context.ApplicationScoped;
import jakarta.inject.Inject;
import java.util.Optional;
import org.eclipse.microprofile.health.HealthCheck;
import org.eclipse.microprofile.health.HealthCheckResponse;

/** At /q/health/well, and not among what says whether pages can be served. */
@Wellness
@ApplicationScoped
class BackupHealth implements HealthCheck {
  @Inject ScheduledBackups backups;

  @Override
  public HealthCheckResponse call() {
    Optional<String> failure = backups.sentence();
    var answer = HealthCheckResponse.named("backup").status(failure.isEmpty());
    failure.ifPresent(reason -> answer.withData("reason", reason));
    return answer.build();
  }
}
