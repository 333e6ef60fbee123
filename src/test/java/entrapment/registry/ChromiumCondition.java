package entrapment.registry;

import org.junit.jupiter.api.extension.ConditionEvaluationResult;
import org.junit.jupiter.api.extension.ExecutionCondition;
import org.junit.jupiter.api.extension.ExtensionContext;

/** Lets browser tests run where a Chromium is found. */
class ChromiumCondition implements ExecutionCondition {

    @Override
    public ConditionEvaluationResult evaluateExecutionCondition(ExtensionContext context) {
        return TestBrowser.chromium().isPresent()
                ? ConditionEvaluationResult.enabled("Chromium is here")
                : ConditionEvaluationResult.disabled(
                        "BROWSER TESTS SKIPPED: no Chromium here. Install it (apt-get install chromium), or name one in"
                                + " the environment variable CHROMIUM.");
    }
}
