package entrapment.registry.reports.question;

import entrapment.registry.intake.Parameters;
import java.util.Map;
import org.jspecify.annotations.Nullable;

/** What was given for each of a question's own parameters. */
public final class Asked {

    private final Map<Parameter<?>, Object> values;
    private final Parameters given;

    Asked(Map<Parameter<?>, Object> values, Parameters given) {
        this.values = values;
        this.given = given;
    }

    /** The value of one of the question's own parameters. */
    @SuppressWarnings({"unchecked", "NullAway"}) // each value was read by the very parameter, which may answer null
    public <T extends @Nullable Object> T get(Parameter<T> parameter) {
        if (!values.containsKey(parameter)) {
            throw new IllegalStateException(parameter.name() + " is not declared by this question");
        }
        return (T) values.get(parameter);
    }

    /** Whether nothing was given for it. */
    public boolean isAbsent(Parameter<?> parameter) {
        return given.list(parameter.name()).isEmpty();
    }

    /** Notes an error at a parameter, where two of them do not fit together. */
    public void refuse(Parameter<?> parameter, String code, String detail) {
        given.refuse(parameter.name(), code, detail);
    }
}
