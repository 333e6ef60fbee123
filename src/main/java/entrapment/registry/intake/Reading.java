package entrapment.registry.intake;

import java.util.List;

/** What came of reading a submission: the value, or everything that is wrong with it. */
public sealed interface Reading<T> {

    record Valid<T>(T value) implements Reading<T> {}

    record Refused<T>(List<FieldError> errors) implements Reading<T> {
        public Refused {
            errors = List.copyOf(errors);
        }
    }
}
