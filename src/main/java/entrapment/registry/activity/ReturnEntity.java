package entrapment.registry.activity;

import jakarta.persistence.CollectionTable;
import jakarta.persistence.ElementCollection;
import jakarta.persistence.Entity;
import jakarta.persistence.Id;
import jakarta.persistence.JoinColumn;
import jakarta.persistence.Table;
import java.util.List;
import org.springframework.data.domain.Persistable;

/** One version of a return; inserted once, never changed. */
@Entity
@Table(name = "activity_return")
@SuppressWarnings("UnusedVariable") // most columns are read by SQL only
class ReturnEntity implements Persistable<Long> {

    @Id
    private Long revision;

    private String centre;

    private String period;

    private int version;

    private String contentHash;

    @ElementCollection
    @CollectionTable(name = "use_count", joinColumns = @JoinColumn(name = "revision"))
    private List<UseCountColumns> counts;

    ReturnEntity(long revision, String centre, ActivityReturn sent, int version, String contentHash) {
        this.revision = revision;
        this.centre = centre;
        this.period = sent.period().toString();
        this.version = version;
        this.contentHash = contentHash;
        this.counts = sent.counts().stream()
                .map(count -> new UseCountColumns(centre, count))
                .toList();
    }

    /** For the persistence provider. */
    protected ReturnEntity() {
        this.revision = 0L;
        this.centre = "";
        this.period = "";
        this.contentHash = "";
        this.counts = List.of();
    }

    int version() {
        return version;
    }

    boolean holds(String hash) {
        return contentHash.equals(hash);
    }

    @Override
    public Long getId() {
        return revision;
    }

    /** Only new returns are ever saved. */
    @Override
    public boolean isNew() {
        return true;
    }
}
