package entrapment.registry.reports.question;

import entrapment.registry.vocabulary.Period;
import java.util.Map;

/** What is asked: a checked request for a report. */
public interface ReportQuery {

    ReportScope scope();

    /** Every period that was given, by the name of its parameter. */
    default Map<String, Period> periods() {
        return scope().periods();
    }
}
