package entrapment.registry.cases;

import java.util.List;

/** A case with its centre's own opaque key for it: 6 to 40 of {@code A-Z a-z 0-9 -}. */
public record KeyedCase(String caseKey, EntrapmentCase content) {

    /** What its sender will be asked to look at again. */
    public List<DataQuery> queries() {
        return CaseRule.queries(content);
    }
}
