package entrapment.registry.intake;

import java.util.List;
import java.util.Map;

/** A request that ends in a {@link Problem}; thrown at the edge, where it becomes the answer. */
public final class Refusal extends RuntimeException {

    private static final long serialVersionUID = 1L;

    private final transient Problem problem;
    private final transient List<FieldError> errors;
    private final transient Map<String, Object> members;

    /** @param members further members of the problem's JSON, in order */
    public Refusal(Problem problem, String detail, List<FieldError> errors, Map<String, Object> members) {
        super(detail);
        this.problem = problem;
        this.errors = List.copyOf(errors);
        this.members = members;
    }

    public Problem problem() {
        return problem;
    }

    public List<FieldError> errors() {
        return errors;
    }

    public Map<String, Object> members() {
        return members;
    }
}
