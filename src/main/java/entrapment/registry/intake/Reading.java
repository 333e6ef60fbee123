package entrapment.registry.intake;

import java.util.List;

/** The result of reading a submission: the value, or everything that is wrong with it. */
public sealed interface Reading<T> {

    /** The value, or the refusal to throw where a refusal ends the request. */
    default T orRefuse() {
        if (this instanceof Valid<T> valid) {
            return valid.value();
        }
        throw Problem.refused(((Refused<T>) this).errors());
    }

    record Valid<T>(T value) implements Reading<T> {}

    record Refused<T>(List<FieldError> errors) implements Reading<T> {
        public Refused {
            errors = List.copyOf(errors);
        }
    }
}
