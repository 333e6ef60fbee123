package entrapment.registry;

import org.junit.jupiter.api.extension.AfterEachCallback;
import org.junit.jupiter.api.extension.ConditionEvaluationResult;
import org.junit.jupiter.api.extension.ExecutionCondition;
import org.junit.jupiter.api.extension.ExtensionContext;
import org.springframework.test.context.junit.jupiter.SpringExtension;

/** Lets browser tests run where a Chromium is found, and closes the windows of each. */
class ChromiumCondition implements ExecutionCondition, AfterEachCallback {

    @Override
    public void afterEach(ExtensionContext context) {
        SpringExtension.getApplicationContext(context)
                .getBean(TestBrowser.class)
                .closeWindows();
    }

    @Override
    public ConditionEvaluationResult evaluateExecutionCondition(ExtensionContext context) {
        return TestBrowser.chromium().isPresent()
                ? ConditionEvaluationResult.enabled("Chromium is here")
                : ConditionEvaluationResult.disabled(
                        "BROWSER TESTS SKIPPED: no Chromium here. Install it (apt-get install chromium), or name one in"
                                + " the environment variable CHROMIUM.");
    }
}
