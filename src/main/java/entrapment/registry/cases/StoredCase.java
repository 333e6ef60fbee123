package entrapment.registry.cases;

import com.fasterxml.jackson.annotation.JsonProperty;
import com.fasterxml.jackson.annotation.JsonPropertyOrder;
import com.fasterxml.jackson.annotation.JsonUnwrapped;
import java.util.List;
import org.jspecify.annotations.Nullable;

/**
 * One version of a case as the registry holds it.
 *
 * @param version 1 for the first version of this case, then 2, 3, …
 * @param revision the place of this version in the order of all accepted changes of the registry
 * @param withdrawn why the case was taken back with this version; null while it counts
 */
@JsonPropertyOrder({"centre", "caseKey", "version", "revision", "withdrawn"})
public record StoredCase(
        String centre,
        String caseKey,
        int version,
        long revision,
        @Nullable Withdrawal withdrawn,
        @JsonUnwrapped EntrapmentCase content) {

    /** What the sender should look at again. */
    @JsonProperty
    public List<DataQuery> queries() {
        return CaseRule.queries(content);
    }

    /** What the sender may have to think of beyond the registry. */
    @JsonProperty
    public List<String> notes() {
        return IncidentSign.notes(content);
    }

    /** The case with its key, as it would be sent. */
    public KeyedCase keyed() {
        return new KeyedCase(caseKey, content);
    }

    /** The entity tag of this version, as HTTP writes it. */
    public String etag() {
        return "\"" + version + "\"";
    }
}
