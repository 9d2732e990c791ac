package trestle.workshop;

import jakarta.persistence.Entity;
import jakarta.persistence.Table;
import java.util.UUID;
import org.hibernate.annotations.JdbcTypeCode;
import org.hibernate.type.SqlTypes;
import trestle.ledger.Filed;
import trestle.ledger.Kind;

/** One revision of what a requirement's inspection looks at; it says everything. */
@Entity
@Table(name = "task_list")
@Kind("task-list")
class TaskList extends Filed {
  UUID requirementId;
  UUID revises;

  @JdbcTypeCode(SqlTypes.JSON)
  String tasks;

  String approvedBy;
}
